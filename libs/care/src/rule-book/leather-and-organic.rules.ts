/** Leather, bone, horn, skins, plants, baskets (care guidance, section 1e). */
import { fromMemory, own, published } from '../sources.js';
import type { MaterialClass } from '../types.js';
import { addStep, always, bar, caution, clock, never, offer, ppe, prefer, referral, STEPS, wet } from './rule.js';
import type { Rule } from './rule.js';

const HARD_ORGANICS: readonly MaterialClass[] = ['bone-or-ivory', 'horn-baleen-or-shell'];
const COLLECTED_NATURE: readonly MaterialClass[] = ['taxidermy-or-skin', 'herbarium', 'mineral-or-fossil'];

const leather: Rule[] = [
  {
    id: 'leather.tanned.route',
    text: 'Fully tanned leather is padded out and air dried under control; what must bend is bent as it dries.',
    because: ['materialClass', 'wetState'],
    classes: ['leather-tanned'],
    applies: wet,
    concludes: [
      offer('treat', 10, STEPS.blotAndAirDry),
      never('Never warm leather.'),
      caution('Pad it out to its shape; flex what must stay flexible as it dries. It may stiffen and darken.', { steps: ['dry', 'check'] }),
    ],
    source: published('salvageObjects', 'aicLeather'),
  },
  {
    id: 'leather.tanned.muddy',
    text: 'Muddy leather is rinsed first.',
    because: ['materialClass', 'wetState', 'soil'],
    classes: ['leather-tanned'],
    applies: (assessment, facts) => !facts.dry && assessment.soil === 'heavy-mud',
    concludes: [addStep('rinse', 'treat'), caution('Rinse the mud off leather before it is padded out.', { steps: ['rinse'] })],
    source: published('salvageObjects', 'aicLeather'),
  },
  {
    id: 'leather.tanned.freezing',
    text: 'Leather may be frozen to buy time.',
    because: ['materialClass', 'wetState'],
    classes: ['leather-tanned'],
    applies: wet,
    concludes: [offer('hold-frozen', 20, STEPS.freeze)],
    source: published('cerf'),
  },
  {
    id: 'leather.tanned.two-days',
    text: 'Fully tanned leather has about two days.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['leather-tanned'],
    applies: wet,
    concludes: [clock('distortion', 'mould')],
    source: fromMemory('48 h for fully tanned leather.'),
  },
  {
    id: 'leather.semi-tanned.at-once',
    text: 'Alum-tawed and untanned skin is handled as parchment: at once, held by freezing at most.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['leather-semi-tanned'],
    applies: wet,
    concludes: [clock('distortion', 'at-once'), offer('hold-frozen', 20, STEPS.freeze), caution('It may fall apart: nothing under tension, full support.')],
    source: published('aicLeather'),
  },
  {
    id: 'leather.semi-tanned.refer',
    text: 'Alum-tawed and untanned skin belongs to a conservator.',
    because: ['materialClass'],
    classes: ['leather-semi-tanned'],
    applies: always,
    concludes: [prefer('refer', 5), bar('treat'), never('Never soak semi-tanned or untanned skin for long.'), referral('Untanned or alum-tawed skin: keep it flat, cool and supported, ask a conservator.')],
    source: published('aicLeather'),
  },
];

const organics: Rule[] = [
  {
    id: 'bone.day',
    text: 'Wet bone and ivory are begun within the day and dried slowly, a conservator being asked.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['bone-or-ivory'],
    applies: wet,
    concludes: [clock('cracking', 'bone'), offer('treat', 10, STEPS.airDry), prefer('refer', 20), caution('Fast drying cracks bone and ivory: dry them slowly.', { steps: ['dry'] })],
    source: published('salvageObjects', 'cerf'),
  },
  {
    id: 'horn.day',
    text: 'Horn, baleen and mother-of-pearl are begun within the day as bone is.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['horn-baleen-or-shell'],
    applies: wet,
    concludes: [clock('cracking', 'bone')],
    source: fromMemory('24 h for horn, baleen and mother-of-pearl.'),
  },
  {
    id: 'horn.route',
    text: 'Horn, baleen and mother-of-pearl dry slowly, a conservator being asked.',
    because: ['materialClass', 'wetState'],
    classes: ['horn-baleen-or-shell'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.airDry), prefer('refer', 20), caution('Fast drying cracks it: dry it slowly; baleen may need weights while it dries.', { steps: ['dry'] })],
    source: published('salvageObjects', 'aicTextiles', 'ellis'),
  },
  {
    id: 'bone.no-freezing',
    text: 'Bone, ivory and horn are never frozen.',
    because: ['materialClass'],
    classes: HARD_ORGANICS,
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze bone, ivory, horn, baleen or shell.')],
    source: published('salvageObjects', 'cerf'),
    floor: true,
  },
  {
    id: 'nature.protection-first',
    text: 'Taxidermy, skins, herbarium sheets, minerals and fossils may carry arsenic, DDT, mercury or asbestos: protection comes first.',
    because: ['materialClass'],
    classes: COLLECTED_NATURE,
    applies: always,
    concludes: [
      never('Never handle collected animals, plants or minerals with bare hands.'),
      caution('Old collections were treated with arsenic, DDT and mercury; fills of fossils may hold asbestos.'),
    ],
    source: published('aicNaturalHistory'),
    floor: true,
  },
  {
    id: 'nature.protection',
    text: 'Against old poisons: gloves, a mask, eye protection, an apron.',
    because: ['materialClass'],
    classes: COLLECTED_NATURE,
    applies: always,
    concludes: [ppe(['nitrile gloves', 'N95 respirator', 'eye protection', 'apron or gown'], {})],
    source: own('the source asks for protection first; the list is ours.'),
    floor: true,
  },
  {
    id: 'nature.mineral.no-water',
    text: 'Some minerals dissolve: no water before someone has named them.',
    because: ['materialClass', 'wetState'],
    classes: ['mineral-or-fossil'],
    applies: wet,
    concludes: [prefer('refer', 10), never('Never rinse a mineral or fossil that nobody has named.')],
    source: published('aicNaturalHistory'),
  },
  {
    id: 'nature.mineral.air-dry',
    text: 'A mineral may dry in the air until someone has named it; it is not frozen.',
    because: ['materialClass', 'wetState'],
    classes: ['mineral-or-fossil'],
    applies: wet,
    concludes: [offer('treat', 20, STEPS.airDry), bar('hold-frozen')],
    source: own('no route in the sources; drying untouched stands behind the referral.'),
    floor: true,
  },
  {
    id: 'basket.route',
    text: 'Baskets and plant fibre are supported, reshaped and dried slowly.',
    because: ['materialClass', 'wetState'],
    classes: ['basket-or-plant-fibre'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.blotAndAirDry), caution('Support it, bring it back to shape, dry it slowly; it may take many hours.', { steps: ['blot', 'dry'] })],
    source: published('iowaLibraries'),
  },
  {
    id: 'basket.two-days',
    text: 'Wet plant fibre keeps its shape for about two days.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['basket-or-plant-fibre'],
    applies: wet,
    concludes: [clock('distortion', 'mould')],
    source: fromMemory('48 h for baskets and plant fibre.'),
  },
  {
    id: 'basket.no-freezing',
    text: 'No guidance was found for freezing baskets; they are not frozen without advice.',
    because: ['materialClass'],
    classes: ['basket-or-plant-fibre'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze a basket without advice.')],
    source: own('silence of the sources read as no.'),
    floor: true,
  },
];

/** Rules about leather and other organic materials, in reading order. */
export const LEATHER_AND_ORGANIC_RULES: readonly Rule[] = [...leather, ...organics];
