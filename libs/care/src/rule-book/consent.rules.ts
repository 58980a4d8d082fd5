/** The owner's consent, item by item. */
import { own, published } from '../sources.js';
import type { Assessment, Consents, Disposition } from '../types.js';
import { bar, caution, offer, STEPS } from './rule.js';
import type { Conclusion, Rule } from './rule.js';

const need = (consent: keyof Consents, dispositions: Disposition[], text: string): Conclusion => ({ kind: 'need', consent, dispositions, text });
const unasked = (consent: keyof Consents) => (assessment: Assessment): boolean => assessment.consents[consent] === null;
const refused = (consent: keyof Consents) => (assessment: Assessment): boolean => assessment.consents[consent] === false;

const CUSTOM = own('item-level consent is this project’s rule; conservators ask it, no source fixes the form.');

/** Rules about consent, in reading order. */
export const CONSENT_RULES: readonly Rule[] = [
  {
    id: 'consent.treat',
    text: 'Water, towels and brushes need the owner’s yes; so does holding it wet.',
    because: ['consents'],
    applies: unasked('treat'),
    concludes: [need('treat', ['treat', 'hold-wet'], 'owner’s consent to treat')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.treat.refused',
    text: 'The owner has said no to treatment.',
    because: ['consents'],
    applies: refused('treat'),
    concludes: [need('treat', ['treat', 'hold-wet'], 'a new decision of the owner, who has said no to treatment')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.freeze',
    text: 'Freezing may last for months: the owner is told and agrees.',
    because: ['consents'],
    applies: unasked('freeze'),
    concludes: [need('freeze', ['hold-frozen'], 'owner’s consent to freeze')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.freeze.refused',
    text: 'The owner has said no to freezing.',
    because: ['consents'],
    applies: refused('freeze'),
    concludes: [need('freeze', ['hold-frozen'], 'a new decision of the owner, who has said no to freezing')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.refer',
    text: 'It leaves the hall only with the owner’s yes, and with a limit of cost.',
    because: ['consents'],
    applies: unasked('refer'),
    concludes: [need('refer', ['refer'], 'owner’s consent to refer')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.refer.refused',
    text: 'The owner has said no to a referral.',
    because: ['consents'],
    applies: refused('refer'),
    concludes: [need('refer', ['refer'], 'a new decision of the owner, who has said no to a referral')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.release',
    text: 'Nothing is let go without the owner’s recorded agreement, item by item, with the photograph kept.',
    because: ['consents'],
    applies: unasked('release'),
    concludes: [need('release', ['release'], 'owner’s recorded agreement to let it go')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.release.refused',
    text: 'The owner keeps it: letting it go is not offered.',
    because: ['consents'],
    applies: refused('release'),
    concludes: [bar('release')],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.release.given',
    text: 'The owner has agreed that it may be let go; that stands behind every way of saving it.',
    because: ['consents'],
    applies: (assessment) => assessment.consents.release === true,
    concludes: [offer('release', 95, STEPS.release)],
    source: CUSTOM,
    floor: true,
  },
  {
    id: 'consent.black-water-heirloom',
    text: 'Porous heirlooms from flood or sewage water: public health would discard, heritage guidance would save. They are taken in only with a named owner’s consent, given in that knowledge, and kept isolated.',
    because: ['water', 'significance', 'materialClass', 'consents'],
    applies: (assessment, facts) => facts.water === 'black' && facts.traits.porous && facts.heirloom && assessment.consents.treat !== true,
    concludes: [need('treat', ['treat', 'hold-wet'], 'named owner’s consent to keep a porous heirloom from contaminated water')],
    source: own('acceptance only with named consent and isolation is our proposal between the sources.'),
    choice: 'Owner’s consent and isolation; never silent.',
    alternative: 'Discard (CDC, FEMA 2023); salvage and freeze (NPS, NEDCC, FEMA/HENTF).',
    choiceId: 'porous-heirlooms',
    floor: true,
  },
  {
    id: 'consent.black-water-heirloom.freeze',
    text: 'The same knowledge belongs to the consent to freeze a porous heirloom from flood or sewage water.',
    because: ['water', 'significance', 'materialClass', 'consents'],
    applies: (assessment, facts) => facts.water === 'black' && facts.traits.porous && facts.heirloom && assessment.consents.freeze !== true,
    concludes: [need('freeze', ['hold-frozen'], 'named owner’s consent to keep a porous heirloom from contaminated water')],
    source: own('acceptance only with named consent and isolation is our proposal between the sources.'),
    choiceId: 'porous-heirlooms',
    floor: true,
  },
  {
    id: 'consent.black-water-isolation',
    text: 'A porous thing from flood or sewage water stays isolated until it is cleaned and dry.',
    because: ['water', 'materialClass'],
    applies: (_assessment, facts) => facts.water === 'black' && facts.traits.porous,
    concludes: [caution('Isolate it from clean things until cleaned and dry; tell the family what remains unknown.')],
    source: published('cdcFloodWater', 'npsWetTextiles', 'iowaChart'),
    floor: true,
  },
];
