/** Metal, glass, ceramic and stone. */
export const INORGANIC: Readonly<Record<string, string>> = {
  'Glazed ceramic, glass, stone and most metal come last: a short wetting does them little harm. Rinsed or sponged, blotted, air dried off the floor.':
    'Cerámica esmaltada, vidrio, piedra y casi todo el metal van al final: mojarse poco tiempo les hace poco daño. Se enjuagan o se pasa una esponja, se absorbe el agua, se secan al aire levantados del piso.',
  'Rinse or sponge the mud off, blot, dry raised off the floor.': 'Quite el barro con enjuague o esponja, absorba el agua, séquelo levantado del piso.',
  'It can wait: things that spoil sooner come first.': 'Puede esperar: lo que se estropea antes va primero.',
  'Shards are kept together and glued by nobody until they are dry.': 'Los fragmentos se mantienen juntos y nadie los pega hasta que estén secos.',
  'Never glue shards before they are dry.': 'Nunca pegue fragmentos antes de que estén secos.',
  'All shards of one object in one labelled container.': 'Todos los fragmentos de un objeto en un solo recipiente etiquetado.',
  'Ceramics and glass are not frozen.': 'La cerámica y el vidrio no se congelan.',
  'some guides bar ceramics and glass from the freezer.': 'algunas guías prohíben poner cerámica y vidrio en el congelador.',
  'Never freeze ceramics or glass.': 'Nunca congele cerámica ni vidrio.',
  'Freezing has nothing to give stone or metal.': 'La congelación no aporta nada a la piedra ni al metal.',
  'Our own calibration: silence of the sources read as no: frost splits wet stone.': 'Calibración propia: el silencio de las fuentes leído como un no: la helada parte la piedra mojada.',
  'Never freeze stone or metal.': 'Nunca congele piedra ni metal.',
  'Iron and steel corrode fast: rinsed, blotted and dried at once, earlier than other inorganic things.':
    'El hierro y el acero se corroen rápido: se enjuagan, se les absorbe el agua y se secan de inmediato, antes que otras cosas inorgánicas.',
  'Rinse, blot and dry in one go.': 'Enjuague, absorba el agua y seque de una vez.',
  'Wet iron is begun within hours.': 'El hierro mojado se empieza en pocas horas.',
  'Our own calibration: the sources say at once and earlier than other inorganics; six hours is ours.':
    'Calibración propia: las fuentes dicen de inmediato y antes que otros inorgánicos; las seis horas son nuestras.',
  'Iron from fresh water is not left wet.': 'El hierro que estuvo en agua dulce no se deja mojado.',
  'Never leave iron wet.': 'Nunca deje mojado el hierro.',
  'Bare metal stands gentle warmth, to 38 C at most.': 'El metal desnudo soporta calor suave, hasta 38 C como máximo.',
  'No hair dryers or ovens at all (FEMA); a low-heat dryer for metal (FEMA 2017).': 'Nada de secadores de pelo ni hornos (FEMA); secadora a baja temperatura para metal (FEMA 2017).',
  'Bare metal only: gentle warmth of 32-38 C is acceptable.': 'Solo metal desnudo: se acepta calor suave de 32-38 C.',
  'Unfired and low-fired ceramic is porous and soft: earlier than glazed ware, dried slowly, not soaked.':
    'La cerámica cruda o de baja cocción es porosa y blanda: antes que la esmaltada, se seca despacio, no se remoja.',
  'Slow air drying.': 'Secado lento al aire.',
  'Unfired clay falls apart in water.': 'El barro crudo se deshace en el agua.',
  'Never soak unfired or low-fired ceramic.': 'Nunca remoje cerámica cruda ni de baja cocción.',
  'What was soaked in salt water waits in fresh water until a conservator decides.': 'Lo que se empapó de agua salada espera en agua dulce hasta que decida un conservador.',
  'Never let it dry with the salt in it.': 'Nunca deje que se seque con la sal adentro.',
  'Fresh water, until a conservator has decided.': 'Agua dulce, hasta que haya decidido un conservador.',
  'Iron soaked in salt water is kept wet in fresh water; from fresh water it is dried at once.':
    'El hierro empapado de agua salada se mantiene mojado en agua dulce; si estuvo en agua dulce, se seca de inmediato.',
  'Branch on the water: salt stays wet, fresh is dried at once.': 'Se decide según el agua: el de agua salada sigue mojado, el de agua dulce se seca de inmediato.',
  'Wet iron is rinsed and dried at once, whatever the water.': 'El hierro mojado se enjuaga y se seca de inmediato, sea cual sea el agua.',
  'Never let salt-soaked iron dry before a conservator has decided.': 'Nunca deje secar hierro empapado de sal antes de que haya decidido un conservador.',
  'Salt breaks the surface as it dries: into fresh water within the day.': 'La sal rompe la superficie al secarse: a agua dulce dentro del día.',
  'Our own calibration: the source says not to let it dry; the hours are ours.': 'Calibración propia: la fuente dice que no se deje secar; las horas son nuestras.',
  'Salt-soaked low-fired ceramic may neither dry nor soak: a conservator decides.': 'La cerámica de baja cocción empapada de sal no puede secarse ni remojarse: decide un conservador.',
  'Our own calibration: two published rules meet here, no soaking and no drying with salt in; the way out is a conservator.':
    'Calibración propia: aquí se cruzan dos reglas publicadas, no remojar y no secar con la sal adentro; la salida es un conservador.',
  'Low-fired ceramic soaked in salt water: keep it damp and covered, ask a conservator.': 'Cerámica de baja cocción empapada de agua salada: manténgala húmeda y cubierta, pregunte a un conservador.',
  'a conservator’s word that it may dry': 'la palabra de un conservador de que puede secarse',
};
