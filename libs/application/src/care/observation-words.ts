import { say, type Assessment, type Message } from '#care';

/** What can be observed, as people name it. */
export const OBSERVATION_WORDS: Readonly<Record<keyof Assessment, Message>> = {
  materialClass: say('the material'), fibre: say('the fibre'), count: say('the number of pieces'), wetState: say('how wet it is'), wettedAtMs: say('when it got wet'), water: say('the water'), mould: say('mould seen'),
  fragility: say('how strong it is'), colourTests: say('colour tests'), allColoursTested: say('whether every colour is tested'), alreadyBled: say('whether colour has run'), hazards: say('hazards'),
  significance: say('what it means to the family'), onlyCopy: say('whether it is the only copy'), highMarketValue: say('whether it is worth much money'), consents: say('what the owner agreed to'),
  parts: say('further materials of it'), colours: say('the colours listed'), soil: say('the soil on it'), detachedParts: say('loose parts'), oldRepairs: say('old repairs'), wettedPlace: say('where it got wet'),
};
