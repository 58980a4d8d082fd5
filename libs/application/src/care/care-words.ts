import type { StepKind } from '#care';

/** What was done, in words for a family. */
export const DONE_WORDS: Readonly<Record<StepKind, string>> = {
  tag: 'tagged', photograph: 'photographed', assess: 'looked at and described', 'colour-test': 'its colours tested for dye that moves',
  stabilise: 'kept from further damage while it waited', rinse: 'rinsed', blot: 'pressed with towels', dry: 'dried in moving air',
  check: 'felt for damp inside and found dry', 'surface-clean': 'cleaned on its surface', wrap: 'wrapped', freeze: 'frozen to stop the clock',
  thaw: 'thawed', refer: 'sent to a specialist', release: 'let go', pack: 'packed', 'hand-back': 'handed back',
};

/** What was not done, in words for a family; steps that a family does not miss are not named. */
export const LEFT_WORDS: Readonly<Partial<Record<StepKind, string>>> = {
  'colour-test': 'Its colours were not all tested for dye that moves.',
  stabilise: 'It was not secured against further damage.',
  rinse: 'It was not rinsed.',
  blot: 'It was not pressed with towels.',
  dry: 'It was not dried here.',
  check: 'Nobody has felt for damp inside it.',
  'surface-clean': 'Its surface was not cleaned.',
  thaw: 'It was not thawed.',
  refer: 'No specialist has seen it.',
};
