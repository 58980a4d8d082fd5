import { say, type Message, type StepKind } from '#care';

/** What was done, in words for a family. */
export const DONE_WORDS: Readonly<Record<StepKind, Message>> = {
  tag: say('tagged'), photograph: say('photographed'), assess: say('looked at and described'), 'colour-test': say('its colours tested for dye that moves'),
  stabilise: say('kept from further damage while it waited'), rinse: say('rinsed'), blot: say('pressed with towels'), dry: say('dried in moving air'),
  check: say('felt for damp inside and found dry'), 'surface-clean': say('cleaned on its surface'), wrap: say('wrapped'), freeze: say('frozen to stop the clock'),
  thaw: say('thawed'), refer: say('sent to a specialist'), release: say('let go'), pack: say('packed'), 'hand-back': say('handed back'),
};

/** What was not done, in words for a family; steps that a family does not miss are not named. */
export const LEFT_WORDS: Readonly<Partial<Record<StepKind, Message>>> = {
  'colour-test': say('Its colours were not all tested for dye that moves.'),
  stabilise: say('It was not secured against further damage.'),
  rinse: say('It was not rinsed.'),
  blot: say('It was not pressed with towels.'),
  dry: say('It was not dried here.'),
  check: say('Nobody has felt for damp inside it.'),
  'surface-clean': say('Its surface was not cleaned.'),
  thaw: say('It was not thawed.'),
  refer: say('No specialist has seen it.'),
};
