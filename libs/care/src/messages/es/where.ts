/** Where a thing is, and what must be known before anybody relies on it. */
export const WHERE: Readonly<Record<string, string>> = {
  'At the station {name}, {site}.': 'En el puesto {name}, {site}.',
  'In the waiting area {name}, {site}.': 'En la zona de espera {name}, {site}.',
  'On the drying place {name}, {site}.': 'En el lugar de secado {name}, {site}.',
  'In the freezer {name}, {site}.': 'En el congelador {name}, {site}.',
  'On the shelf {name}, {site}.': 'En el estante {name}, {site}.',
  'In the container {tag} ({name}).': 'En el recipiente {tag} ({name}).',
  'In the vehicle {name}.': 'En el vehículo {name}.',
  'With {name}, who carries it.': 'Lo lleva {name}.',
  'With the specialist {name}.': 'Está con el especialista {name}.',
  'Back with its household {code}.': 'De vuelta con su hogar {code}.',
  'With a partner network.': 'Está con una red asociada.',
  'Nowhere any more: it was let go with the agreement of its owner.': 'Ya no está en ningún lugar: nos desprendimos de él con el acuerdo de su dueño.',
  'Its record was joined to another one of the same thing; look there.': 'Su registro se unió a otro del mismo objeto; mire allí.',
  'It was reported missing: this is only the last place on record.': 'Consta como perdido: este es solo el último lugar que figura en el registro.',
  'Another report says that it is elsewhere: go and look before you rely on this.': 'Otro aviso dice que está en otro lugar: vaya a mirar antes de fiarse de esto.',
  'It is being handed over: until the receiver accepts, this is where it is on record.': 'Se está entregando: hasta que quien lo recibe acepte, en el registro está aquí.',
  // What must not lie together.
  'Mould stays by itself: what has mould, or may have it, is not put together with what is free of it.': 'El moho se queda aparte: lo que tiene moho, o puede tenerlo, no se junta con lo que está libre de él.',
  'Unrinsed things from flood or sewage water are not put together with rinsed and clean ones.': 'Lo que viene de aguas de inundación o residuales y no está enjuagado no se junta con lo enjuagado y limpio.',
  'A thing whose colour moves lies with nothing that could take its colour.': 'Lo que destiñe no se pone con nada que pueda teñirse.',
  'What has mould, or may have it, does not go into the clean zone.': 'Lo que tiene moho, o puede tenerlo, no entra en la zona limpia.',
};
