/** The words of the vocabulary as people say them. */
import type { DamageKind, Disposition, Significance, Skill, StepKind, Urgency, Zone } from '../types.js';
import { say } from './message.js';
import type { Message } from './message.js';

type Words<K extends string> = Readonly<Record<K, Message>>;

/** Steps as the name of what is done. */
export const STEP_WORDS: Words<StepKind> = {
  tag: say('tag'), photograph: say('photograph'), assess: say('look at and describe'), 'colour-test': say('colour test'), stabilise: say('stabilise'), rinse: say('rinse'), blot: say('blot'), dry: say('dry'),
  check: say('feel for damp'), 'surface-clean': say('surface cleaning'), wrap: say('wrap'), freeze: say('freeze'), thaw: say('thaw'), refer: say('send to a specialist'), release: say('release'), pack: say('pack'), 'hand-back': say('hand back'),
};

/** Ways, after "the way is now". */
export const WAY_WORDS: Words<Disposition> = {
  treat: say('to treat it here'), 'hold-frozen': say('to hold it frozen'), 'hold-wet': say('to hold it wet'), refer: say('to refer it to a specialist'), release: say('to let it go'),
};

/** Zones, as where something is. */
export const ZONE_WORDS: Words<Zone> = { dirty: say('on the dirty side'), clean: say('on the clean side'), quarantine: say('in quarantine'), cold: say('at the freezers') };

/** Urgencies, after "handling must start". */
export const URGENCY_WORDS: Words<Urgency> = { immediate: say('at once'), 'within-a-day': say('within a day'), 'within-two-days': say('within two days'), 'can-wait': say('it can wait') };

export const SKILL_WORDS: Words<Skill> = {
  intake: say('intake'), 'colour-testing': say('colour testing'), rinsing: say('rinsing'), blotting: say('blotting'), drying: say('drying'), paper: say('paper'), photographs: say('photographs'), 'mould-work': say('mould work'),
  'freezer-wrapping': say('wrapping for the freezer'), assessment: say('assessment'), lead: say('lead'),
};

export const DAMAGE_WORDS: Words<DamageKind> = {
  mould: say('mould'), blocking: say('sticking together'), 'dye-migration': say('running dye'), 'image-loss': say('image loss'), corrosion: say('corrosion'), distortion: say('distortion'), 'binder-loss': say('loss of binder'),
  flaking: say('flaking'), warping: say('warping'), delamination: say('layers coming apart'), cracking: say('cracking'), 'salt-crystals': say('salt crystals'),
};

export const SIGNIFICANCE_WORDS: Words<Significance> = { everyday: say('everyday'), valued: say('valued'), treasured: say('treasured'), irreplaceable: say('irreplaceable') };
