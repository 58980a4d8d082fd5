/** Parts that the condition note and the package for a specialist share. */
import { answerInWords, MATERIAL_WORDS, say, SIGNIFICANCE_WORDS, STEP_WORDS, type Assessment, type Language, type Message } from '#care';
import { OBSERVATION_WORDS, type DossierStep, type ItemDossier } from '#application';
import { FlowDocument, flowTable } from './flow/index.js';
import { clockOf } from './paper-clock.js';
import { OUTCOME_WORDS, STAGE_WORDS } from './paper-words.js';

const capital = (text: string): string => `${text.charAt(0).toLocaleUpperCase()}${text.slice(1)}`;

/** What it is and where it belongs; no name of anybody. */
export function whatItIs(flow: FlowDocument, dossier: ItemDossier, language: Language): void {
  const { item } = dossier;
  const { spoken } = flow;
  const clock = clockOf(dossier.timeZone, language);
  flow.facts([
    [spoken(say('Tag')), item.tag],
    [spoken(say('What it is')), item.description],
    [spoken(say('Material')), capital(spoken(MATERIAL_WORDS[item.materialClass]))],
    ...(item.count > 1 ? ([[spoken(say('Pieces')), String(item.count)]] as const) : []),
    [spoken(say('To its family')), capital(spoken(SIGNIFICANCE_WORDS[item.significance]))],
    [spoken(say('Household')), dossier.householdCode],
    [spoken(say('Got wet')), item.wettedAtMs === null ? spoken(say('not known; the flood began {moment}', { moment: clock.moment(dossier.floodAtMs) })) : clock.moment(item.wettedAtMs)],
    [spoken(say('Came to us')), clock.moment(item.arrivedAtMs)],
    [spoken(say('Times')), spoken(say('by the clock of {zone}', { zone: clock.zone }))],
  ]);
}

const SEEN = ['wetState', 'water', 'mould', 'fragility', 'fibre', 'soil'] as const satisfies readonly (keyof Assessment)[];

/** How it was found, line by line; what nobody has looked at says so. */
export function whatWasSeen(flow: FlowDocument, name: Message, { atMs, observed }: ItemDossier['first'], dossier: ItemDossier, language: Language): void {
  const { spoken } = flow;
  flow.heading(`${spoken(name)}, ${clockOf(dossier.timeZone, language).moment(atMs)}`);
  const lines = SEEN.map((key) => [capital(spoken(OBSERVATION_WORDS[key])), answerInWords(key, observed[key] ?? 'unknown', language)] as const);
  flow.facts([...lines, [capital(spoken(OBSERVATION_WORDS.alreadyBled)), yesOrNo(flow, observed.alreadyBled)]]);
}

function yesOrNo({ spoken }: FlowDocument, value: boolean | null): string {
  return spoken(value === null ? say('not known') : value ? say('yes') : say('no'));
}

/** Colour tests and weighings. */
export function whatWasTested(flow: FlowDocument, dossier: ItemDossier, language: Language): void {
  const { spoken } = flow;
  const clock = clockOf(dossier.timeZone, language);
  flow.heading(spoken(say('Tests')));
  if (dossier.tests.length === 0) flow.text(spoken(say('No colour test is on record.')));
  else {
    flowTable(flow, [{ head: spoken(say('When')), share: 52 }, { head: spoken(say('Colour')), share: 42 }, { head: spoken(say('With')), share: 38 }, { head: spoken(say('Result')), share: 42 }],
      dossier.tests.map(({ atMs, test }) => [clock.moment(atMs), test.colour, spoken(SOLUTIONS[test.solution]), answerInWords('colourTests', test.reading, language)]));
    flow.text(spoken(dossier.latest.observed.allColoursTested ? say('Every colour was tested, as the tester says.') : say('Not every colour was tested.')), { beforeMm: 1 });
  }
  if (dossier.weighings.length === 0) return;
  flowTable(flow, [{ head: spoken(say('Weighed')), share: 90 }, { head: spoken(say('Mass')), share: 84 }],
    dossier.weighings.map(({ atMs, massKg, doubtful }) => [clock.moment(atMs), `${massKg.toFixed(2)} kg${doubtful ? ` (${spoken(say('doubtful'))})` : ''}`]));
}

const SOLUTIONS = { water: say('water'), detergent: say('water with a mild detergent') } as const;

/** Every step with its time, whose hands, and how it ended. */
export function whatWasDone(flow: FlowDocument, dossier: ItemDossier, language: Language): void {
  const { spoken } = flow;
  const clock = clockOf(dossier.timeZone, language);
  flow.heading(spoken(say('What was done')));
  if (dossier.steps.length === 0) return flow.text(spoken(say('Nothing is on record.')));
  const columns = [{ head: spoken(say('When')), share: 46 }, { head: spoken(say('Step')), share: 38 }, { head: spoken(say('By whose hands')), share: 46 }, { head: spoken(say('How it ended')), share: 44 }];
  flowTable(flow, columns, dossier.steps.map((step) => [clock.moment(step.finishedAtMs), spoken(STEP_WORDS[step.step]), handsOf(flow, step), endOf(flow, step)]));
}

function handsOf({ spoken }: FlowDocument, { hands, station }: DossierStep): string {
  return station === null ? spoken(hands) : `${spoken(hands)}; ${station}`;
}

function endOf({ spoken }: FlowDocument, { outcome, note }: DossierStep): string {
  return note === '' ? spoken(OUTCOME_WORDS[outcome]) : `${spoken(OUTCOME_WORDS[outcome])}. ${note}`;
}

/** Where it is and in what state, as the record has it. */
export function howItStands(flow: FlowDocument, dossier: ItemDossier, language: Language): void {
  const { spoken } = flow;
  flow.heading(spoken(say('Now, by the record of {moment}', { moment: clockOf(dossier.timeZone, language).moment(dossier.asOfMs) })));
  flow.text(capital(`${spoken(STAGE_WORDS[dossier.item.stage])}.`));
  for (const where of dossier.where) flow.text(spoken(where));
  if (dossier.latest.atMs !== dossier.first.atMs || dossier.latest.observed !== dossier.first.observed) {
    const { observed } = dossier.latest;
    flow.facts(SEEN.slice(0, 4).map((key) => [capital(spoken(OBSERVATION_WORDS[key])), answerInWords(key, observed[key] ?? 'unknown', language)] as const));
  }
}

/** Photographs by their references. */
export function photographsOf(flow: FlowDocument, photographs: readonly { reference: string; takenOn: string | null }[]): void {
  const { spoken } = flow;
  flow.heading(spoken(say('Photographs')));
  if (photographs.length === 0) return flow.text(spoken(say('No photograph is on record.')));
  flow.points(photographs.map(({ reference, takenOn }) => (takenOn === null ? reference : spoken(say('{reference}, taken on {day}', { reference, day: takenOn })))));
}
