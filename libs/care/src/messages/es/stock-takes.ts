/** Differences of a stock-take. */
export const STOCK_TAKES: Readonly<Record<string, string>> = {
  'It should be here and nobody has seen it. Look around it, in the boxes beside it and under the screens, before you report it missing.': 'Debería estar aquí y nadie lo ha visto. Busque alrededor, en las cajas de al lado y debajo de las mallas, antes de darlo por perdido.',
  'It lies where the record does not have it. Put it back, or put it on record where it is.': 'Está donde el registro no lo tiene. Devuélvalo a su sitio o anote en el registro dónde está.',
  'On record it is at another place. Put it on record here, or take it back there.': 'Según el registro está en otro lugar. Anótelo aquí o llévelo de vuelta allí.',
  'The record says that it has left us. Put it aside and give it to the coordinator.': 'Según el registro ya no está con nosotros. Apártelo y entrégueselo a la coordinación.',
  'This tag was replaced by another one. Look for the new tag on the thing and scan that.': 'Esta etiqueta se cambió por otra. Busque la nueva en el objeto y léala.',
  'This tag was replaced by {tag}. Look for that tag on the thing and scan it.': 'Esta etiqueta se cambió por {tag}. Busque esa etiqueta en el objeto y léala.',
  'This tag belongs to no thing yet. If it is on a thing, the thing was never taken in: give it to the coordinator.': 'Esta etiqueta todavía no es de ningún objeto. Si está puesta en uno, ese objeto nunca se recibió: entrégueselo a la coordinación.',
  'This tag belongs to another incident of ours. Give the thing to the coordinator.': 'Esta etiqueta es de otro incidente nuestro. Entregue el objeto a la coordinación.',
  'Nobody here knows this tag. Read it again; if it is right, give the thing to the coordinator.': 'Aquí nadie conoce esta etiqueta. Léala otra vez; si es correcta, entregue el objeto a la coordinación.',
};
