/** What a report at a station changed. */
export const STATIONS: Readonly<Record<string, string>> = {
  'The step “{step}” is done.': 'El paso «{step}» está hecho.',
  'The step “{step}” failed and may be tried again.': 'El paso «{step}» no salió bien y se puede intentar de nuevo.',
  'The step “{step}” stopped because dye moved: it counts as bleeding from now on.': 'El paso «{step}» se detuvo porque el tinte se corrió: desde ahora cuenta como tinte que se corre.',
  'The step “{step}” stopped because mould was found: it counts as active mould from now on.': 'El paso «{step}» se detuvo porque se encontró moho: desde ahora cuenta como moho activo.',
  'The step “{step}” stopped until the owner has decided.': 'El paso «{step}» se detuvo hasta que el dueño haya decidido.',
  'The way is now {way}.': 'La vía es ahora {way}.',
  'Handling must start: {urgency}.': 'Hay que empezar: {urgency}.',
  'It waits for the owner to decide.': 'Espera a que el dueño decida.',
  'It is on record at {place}, {zone}.': 'Consta en {place}, {zone}.',
  'It is on record at {place}.': 'Consta en {place}.',
  'Next comes “{step}”, {zone}.': 'Sigue «{step}», {zone}.',
  'Next comes “{step}”.': 'Sigue «{step}».',
  'Nothing more is to be done on this way.': 'No queda nada por hacer en esta vía.',
  'A new plan is asked for.': 'Se pide un nuevo plan.',
};
