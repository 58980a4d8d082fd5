import { DEFAULT_CALIBRATION, deriveFacts, findRule, type Assessment, type Facts, type Source, type TriageContext } from '#care';
import type { ItemRecord } from '../ports/item-store.js';

/** A sentence for a family with what it rests on. */
export interface Advice {
  text: string;
  source: Source;
}

/** Stands at the foot of every receipt. */
export const RECEIPT_STANDING =
  'First aid keeps a thing from getting worse; it does not restore it. Nothing is promised about how it will keep. For its value, for insurance and for anything to do with health ask those who are licensed for it; what the local authorities say about flooded things comes first.';

const own = (text: string, because: string): Advice => ({ text, source: { mark: 'own-calibration', cite: `Our own words: ${because}` } });

/** The source of a rule that the sentence repeats in words for a family. */
const fromRule = (text: string, ruleId: string): Advice => ({ text, source: findRule(ruleId)?.source ?? { mark: 'own-calibration', cite: `Our own words after the rule ${ruleId}.` } });

const KEEP_DRY: Advice = {
  text: 'Keep it in moving air below 60 % relative humidity: mould on cloth is unlikely there.',
  source: { mark: 'published', cite: 'CCI Notes 13/15, Canadian Conservation Institute' },
};
const KEEP_CLEAN: Advice = {
  text: 'Keep it clean and fully dry, in acid-free paper, not against bare wood or plastic.',
  source: { mark: 'from-memory', cite: 'From memory, not verified: storage of textiles after drying.' },
};

function factsOf(assessment: Assessment, context: TriageContext): Facts {
  return deriveFacts(assessment, context, DEFAULT_CALIBRATION);
}

/** How to keep the thing at home. */
export function storageAdvice(item: ItemRecord, assessment: Assessment, context: TriageContext): Advice[] {
  const facts = factsOf(assessment, context);
  if (item.stage === 'held-frozen') return [own('It is frozen. Keep it frozen until somebody can dry it, and thaw only what can be dried in one go.', 'freezing buys time and does nothing else (rules freezing.effect and freezing.thaw).')];
  if (!facts.dry) {
    return [
      fromRule('It is not known to be dry. Dry it at once, spread out in moving air: drying should begin within 48 hours of the wetting, as a rule of practice.', 'mould.clock'),
      fromRule('Use no hair dryer, oven or iron, and do not lay it in the sun.', 'drying.no-heat'),
    ];
  }
  return [
    ...(facts.family === 'textile' ? [KEEP_DRY] : []),
    KEEP_CLEAN,
    own('Look at it after two weeks, and feel inside folds, spines and padding. If it is damp, smells musty or shows new spots, take it out into dry air, apart from other things, and ask.', 'damp and mould show late in thick things; two weeks are our choice.'),
  ];
}

/** What remains uncertain or unsafe about the thing, as far as it is on record. */
export function residualRisk(item: ItemRecord, assessment: Assessment, context: TriageContext): Advice[] {
  const facts = factsOf(assessment, context);
  const risks: Advice[] = [];
  // What was clean when it came and was dried in time is not spoilt by the days since.
  if (assessment.water !== 'clean' || (!facts.dry && facts.water !== 'clean')) risks.push(fromRule('It lay in contaminated water. Rinsing and drying do not make it sterile: wash your hands after handling it, and keep it from small children, from food and from bedding until you have asked.', 'consent.black-water-isolation'));
  if (facts.mould === 'active') risks.push(fromRule('Mould was found on it or must be expected. Keep it bagged and apart; people who are sensitive to mould should not handle it.', 'mould.active.quarantine'));
  if (facts.mould === 'dry') risks.push(fromRule('It had mould. Dead mould still harms: handle it with gloves and a mask if any can be seen.', 'mould.dry.remove'));
  if (facts.mould === 'unseen') risks.push(own('Nobody has looked it over for mould.', 'it was never assessed for mould.'));
  if (facts.family === 'textile' && facts.dye === 'bleeding') risks.push(fromRule('Its dye moves. Let no water touch it before a conservator has answered.', 'textile.bleeding.refer-always'));
  if (facts.family === 'textile' && facts.dye === 'untested') risks.push(fromRule('Not every colour was tested: dye may move as soon as it gets wet.', 'textile.colour-test.first'));
  if (facts.stopHazards.length > 0) risks.push(fromRule('Something about it can hurt people. Leave it closed and apart, and ask the competent authority.', 'hazard.stop-and-isolate'));
  if (item.stage === 'held-frozen') risks.push(own('Freezing has neither dried it nor killed mould.', 'rule freezing.effect.'));
  if (risks.length === 0) risks.push(own('No particular risk is on record. That is no proof that there is none.', 'absence of a record is not absence of a risk.'));
  return risks;
}
