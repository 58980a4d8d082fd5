import type { Row } from './row.js';

const NOBODY_ASKED = { treat: null, freeze: null, refer: null, release: null } as const;
const ALL_REFUSED = { treat: false, freeze: false, refer: false, release: false } as const;

/** Care guidance, sections 2 (water), 3 (protection) and 9 (harm). */
export const WATER_AND_HAZARD_ROWS: readonly Row[] = [
  { row: '2 category 1 clean', source: 'trade explainers (S62), practice', what: 'cloth wet from a pipe', observed: { water: 'clean' }, expect: { startByHours: 48, silentOn: ['Isolate it from clean things until cleaned and dry; tell the family what remains unknown.', 'Food.'] } },
  {
    row: '2 category 2 grey', source: 'trade explainers (S62), practice; spraying from memory', what: 'cloth from a washing machine’s overflow', observed: { water: 'grey' },
    expect: { ppe: ['waterproof gloves'], keepsOff: ['no-wet-work', 'under-age'], says: ['Rinse apart from clean-water things; wash hands.', 'Do not spray. If you must: two pairs of gloves and a face shield.', 'Wound and flood water: wash, stop work, seek medical advice.', 'Food.'] },
  },
  {
    row: '2 category 3 black', source: 'S62; WA DOH (S35); CDC (S34); OSHA (S39)', what: 'cloth from river water', observed: { water: 'black' },
    expect: {
      ppe: ['rubber boots', 'waterproof rubber gloves', 'goggles'], keepsOff: ['no-wet-work', 'under-age'],
      says: ['No eating, drinking, smoking or touching your own face; wash hands on leaving; wash work clothes hot and apart.', 'Isolate it from clean things until cleaned and dry; tell the family what remains unknown.', 'Rinsed and clean things.'],
    },
  },
  { row: '2 public-health usage', source: 'WA DOH (S35)', what: 'flood water without a name', observed: { water: 'black' }, expect: { ppe: ['rubber boots'] } },
  { row: '2 escalation', source: 'trade explainers (S62), practice', what: 'clean water after a day', observed: { water: 'clean' }, hours: 24, expect: { ppe: ['waterproof gloves'], reasons: ['water.worsens'] } },
  { row: '2 escalation', source: 'trade explainers (S62), practice', what: 'clean water after two days', observed: { water: 'clean' }, hours: 48, expect: { ppe: ['rubber boots'], reasons: ['water.worsens'] } },
  { row: '2 unknown source', source: 'trade explainers (S62), practice', what: 'nobody knows the water', observed: { water: 'unknown' }, expect: { ppe: ['rubber boots', 'goggles'], reasons: ['water.unknown-is-black'] } },
  {
    row: '2 sewage or chemical contact', source: 'FEMA/HENTF (S33); Gorges (S73); protection CDC (S34)', what: 'a toy soaked in sewage', observed: { materialClass: 'textile-stuffed', hazards: ['sewage'], water: 'black' },
    expect: {
      startByHours: 2, binding: null, first: 'refer', open: ['refer', 'hold-frozen'], bath: 'alone', ppe: ['rubber boots', 'waterproof rubber gloves', 'goggles'],
      says: ['Sewage contact: stop, isolate, double-bag or tub it, ask the competent authority or a heritage helpline.', 'Do not rinse, dry or open it here. Bag it twice or put it in a box with a lid, mark it on the outside, tell the lead.', 'a freezer kept apart for contaminated things and the lead’s recorded decision', 'Never put it through the rinse baths.', 'Everything: alone, closed and marked.'],
    },
  },
  { row: '2 sewage or chemical contact', source: 'CDC (S34): protection whatever the water is called', what: 'sewage on a thing from clean water', observed: { hazards: ['sewage'] }, expect: { ppe: ['rubber boots'] } },
  {
    row: '2 fuel, pesticide, solvent', source: 'flood FAQ copy (S91), weak', what: 'a coat that smells of heating oil', observed: { materialClass: 'textile-garment-3d', hazards: ['fuel-or-solvent'] },
    expect: {
      open: ['refer'], ppe: ['respirator with organic-vapour cartridge (fit-tested wearer)'],
      says: ['Fuel or solvent: stop, move outdoors or to moving air, no flame or switch, ask the competent authority.', 'An N95 does nothing against vapour; air the place first.'],
    },
  },
  {
    row: '2 floodwater, no known sewage', source: 'WA DOH (S35); CDC (S34)', what: 'a sampler from the river is taken in', observed: { water: 'black', consents: { treat: true, freeze: true, refer: true, release: null } },
    expect: { first: 'treat', routes: { treat: ['rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'] } },
  },
  {
    row: '2 porous goods, no significance', source: 'CDC (S34); FEMA 2023 (S32)', what: 'everyday papers from the river', observed: { materialClass: 'paper-uncoated', significance: 'everyday', water: 'black' },
    expect: { open: ['treat', 'hold-frozen', 'release', 'refer'], says: ['owner’s recorded agreement to let it go'] },
  },
  {
    row: '2 porous heirlooms', source: 'CDC (S34) against NPS (S1), S7; own', what: 'a quilt from the river, nobody asked', observed: { materialClass: 'textile-quilt-padded', water: 'black', consents: NOBODY_ASKED },
    expect: { says: ['named owner’s consent to keep a porous heirloom from contaminated water', 'owner’s consent to treat', 'owner’s consent to freeze', 'owner’s consent to refer'] },
  },
  { row: '2 porous heirlooms', source: 'own', what: 'a quilt from the river, freezing not asked', observed: { water: 'black', consents: { treat: true, freeze: null, refer: true, release: null } }, expect: { says: ['named owner’s consent to keep a porous heirloom from contaminated water'] } },
  { row: '2 porous heirlooms', source: 'own', what: 'a quilt from the river, treatment not asked', observed: { water: 'black', consents: { treat: null, freeze: true, refer: true, release: null } }, expect: { says: ['named owner’s consent to keep a porous heirloom from contaminated water'] } },
  {
    source: 'consent item by item, own', what: 'an owner who refuses everything', observed: { consents: ALL_REFUSED },
    expect: { says: ['a new decision of the owner, who has said no to treatment', 'a new decision of the owner, who has said no to freezing', 'a new decision of the owner, who has said no to a referral'], open: ['treat', 'hold-frozen', 'refer'] },
  },
  { source: 'section 6a, own', what: 'an owner who keeps an everyday pillow', observed: { materialClass: 'textile-stuffed', significance: 'everyday', water: 'black', consents: { ...NOBODY_ASKED, release: false } }, expect: { open: ['treat', 'refer'] } },
  { source: 'own', what: 'an owner who has let it go', observed: { consents: { treat: true, freeze: true, refer: true, release: true } }, expect: { open: ['treat', 'hold-frozen', 'refer', 'release'], says: ['Throw nothing away by yourself: the owner and the lead decide.'] } },
  { source: '3a: Texas (S30), CDC (S34)', what: 'any wet table', observed: {}, expect: { ppe: ['nitrile or other waterproof gloves', 'eye protection', 'apron or gown'], keepsOff: ['no-wet-work'] } },
  {
    source: 'section 9 no. 10', what: 'a box with a jar of unknown liquid', observed: { hazards: ['unknown-liquid'] },
    expect: { open: ['refer'], ppe: ['apron or gown'], says: ['Suspected pesticide, arsenic, mercury, lead, radium, medicine or unknown liquid: stop, isolate, do not touch barehanded, call the competent authority.', 'Never handle it with bare hands.'] },
  },
  { source: 'section 9 nos. 10 and 13', what: 'crumbling lagging', observed: { hazards: ['asbestos'] }, expect: { open: ['refer'], ppe: ['respirator with P100 cartridge (fit-tested wearer)'], says: ['Suspected asbestos: stop, keep it damp and closed, leave it to licensed people.'] } },
  { source: 'section 9 no. 10', what: 'a shell case', observed: { hazards: ['ammunition'] }, expect: { open: ['refer'], says: ['Ammunition or weapon: stop, do not move it, keep people away, call the competent authority.'] } },
  { source: 'section 9 nos. 10 and 12', what: 'needles in a cushion', observed: { hazards: ['sharps'] }, expect: { ppe: ['cut-resistant gloves under the waterproof ones'], keepsOff: ['under-age'], says: ['Sharps inside: tools, not fingers; a rigid box for what you take out. Used needles are for the competent authority.'] } },
  { source: '3a: Smith protocol (S68); HEPA from memory', what: 'dried silt on a book', observed: { materialClass: 'book-bound', water: 'black' }, expect: { ppe: ['N95 respirator'], says: ['Only when it is fully dry: vacuum with a HEPA filter, outdoors or under extraction, with a mask. Never vacuum anything wet.'] } },
  { source: 'section 9 no. 6, own', what: 'a hall of 31 C', observed: {}, airTempC: 31, expect: { startByHours: 24, says: ['Warm hall: water, shade, short turns; stopping beats finishing the batch.'], keepsOff: ['no-heat'] } },
  { source: 'section 9 nos. 1 and 13, own', what: 'questions for licensed people', observed: {}, expect: { says: ['Buildings, power, asbestos, medical, valuation, insurance and legal questions: ask the licensed person; local codes come first.'] } },
  { source: 'section 9 nos. 15 and 16, own', what: 'an owner in grief', observed: {}, expect: { says: ['The owner decides; promise no outcome.'] } },
  { source: 'FEMA 2023 (S32); section 9 no. 4', what: 'nobody under age on the dirty side', observed: { materialClass: 'paper-uncoated' }, expect: { keepsOff: ['under-age'] } },
  { source: 'section 9 no. 14, own', what: 'a thing of high market value', observed: { highMarketValue: true }, expect: { first: 'refer', says: ['Take no step that cannot be undone before a conservator has answered.'] } },
  { source: 'own', what: 'nobody has asked what it is worth', observed: { highMarketValue: null }, expect: { says: ['Ask whether it is valuable before any step that cannot be undone. Valuation itself is for a licensed person.'] } },
];

/** Care guidance, section 4 (mould and freezing), and states of things. */
export const MOULD_AND_STATE_ROWS: readonly Row[] = [
  { source: '4a: EPA (S37), FEMA 2023 (S32), NEDCC (S20), NPS (S1)', what: 'the mould clock', observed: {}, expect: { startByHours: 48, binding: 'mould' } },
  { source: '4a: own, the short end of the band', what: 'the mould clock in warm air', observed: {}, airTempC: 30, expect: { startByHours: 24, binding: 'mould' } },
  { source: 'own: the cautious side', what: 'nobody knows when it got wet', observed: { wettedAtMs: null }, hours: 10, expect: { startByHours: 48, reasons: ['mould.wetting-time-unknown'] } },
  {
    source: '4b: S27, S28; smears: S68; isolation without an hour, ours', what: 'active mould', observed: { mould: 'active' },
    expect: {
      startByHours: 2, binding: 'mould', first: 'hold-frozen', bath: 'alone', routes: { treat: ['dry', 'surface-clean', 'check', 'wrap', 'hand-back'] }, ppe: ['N95 respirator', 'gloves', 'eye protection'], keepsOff: ['no-mould', 'under-age', 'no-heat'],
      says: [
        'Bag it before moving it; keep it in quarantine.', 'Never share a bath, table or box with things free of mould.', 'Never wipe or brush soft mould.', 'Ask for restrictions, never for a diagnosis.', 'Everything free of mould.', 'Unsealed parcels; its own stays sealed.',
        'Much mould or heavy disturbance: full-face respirator, coverall, containment: professionals.', 'Respirators follow local law; a tight one needs medical fitness and a fit test, and an N95 is no gas mask.', 'Protective clothing raises the heat load: shorter turns; stopping beats finishing.',
      ],
    },
  },
  { source: 'practice: fans off near active mould', what: 'active mould and the fan', observed: { mould: 'active' }, expect: { says: ['No fan near it: moving air spreads mould.'] } },
  { source: 'own: the mould restriction at the freezer', what: 'a mouldy parcel for the freezer', observed: { mould: 'active', consents: { treat: null, freeze: true, refer: null, release: null } }, expect: { first: 'hold-frozen', keepsOffStep: { freeze: ['no-mould', 'under-age'] } } },
  { source: '4b: NCCEH, EPA ch. 5 (S37b)', what: 'dry mould on a dry card portrait', observed: { mould: 'dry', materialClass: 'photo-albumen', wetState: 'dry' }, expect: { routes: { treat: ['surface-clean', 'check', 'wrap', 'hand-back'] }, ppe: ['N95 respirator'], says: ['It had mould: gloves and a mask if any can be seen, and away from people who are sensitive to it.'] } },
  { source: 'own: nobody looked', what: 'mould nobody looked for', observed: { mould: 'unknown' }, expect: { ppe: ['N95 respirator until mould is ruled out'], bath: 'alone', keepsOff: ['no-mould'], says: ['Wear an N95 mask while you look for mould, before you open folds. If you see mould or are not sure, keep it on.'] } },
  { source: '4c: S27, S28', what: 'what freezing does', observed: {}, expect: { says: ['Freezing does not dry it and does not kill mould. It only gives time, and nobody has published how much is safe.', 'As fast and as cold as the machine can: a household freezer may be too slow or too warm.'] } },
  { source: '4c: S26, S82, S84, S28', what: 'how cold', observed: {}, expect: { says: ['Freeze to -23 C if the machine can, hold at -18 C or colder; leave air around parcels.'] } },
  { source: '4c: S. Ellis (S55); folds: S67', what: 'how it is wrapped and labelled', observed: {}, expect: { says: ['Label outside: number, what it is, materials, damage, dyes that move, metal or bone parts.', 'As few folds as possible, freezer or waxed paper between all layers.', 'Other pieces, without a barrier between.'] } },
  {
    source: '4c: S55, S73b; closed bag: S69, S84b; session from memory', what: 'how it is thawed', observed: {},
    expect: { says: ['Unfold or unroll only after thawing.', 'Thaw only what this session can dry.', 'Thaw in a cold bath only where no dye moves; otherwise at room temperature or cooler.', 'Ask before thawing at all.', 'Keep the bag shut until the parcel is as warm as the room.'] },
  },
  { source: 'FEMA 2017 (S31); MNHS (S11)', what: 'no heat, no sun', observed: {}, expect: { says: ['Never dry it with a hair dryer, oven, heater or iron.', 'Never dry it in the sun.'] } },
  { source: 'S3', what: 'fans at a table of books', observed: { materialClass: 'book-bound' }, expect: { says: ['Fans low and turned away from the items.'] } },
  { source: 'WA DOH (S35)', what: 'bleach', observed: {}, expect: { says: ['Never use bleach or other disinfectants on it.', 'Never mix cleaning products: the fumes can kill.'] } },
  { source: 'own: a clock that is not running', what: 'a dry thing needs no freezer', observed: { wetState: 'dry', materialClass: 'photo-albumen' }, expect: { open: ['treat', 'refer'], reasons: ['dry.no-holding'] } },
  { source: 'own', what: 'a dry cloth whose dye has run is not frozen either', observed: { wetState: 'dry', materialClass: 'textile-flat-small', alreadyBled: true }, expect: { open: ['treat', 'refer'] } },
  { source: '4c: S28, S29', what: 'a dry book with active mould', observed: { materialClass: 'book-bound', wetState: 'dry', mould: 'active' }, expect: { first: 'hold-frozen' } },
  { source: 'S27, S28', what: 'frozen: the clocks stand', observed: {}, hours: 100, done: ['wrap', 'freeze'], expect: { urgency: 'can-wait', binding: null, reasons: ['stabilised.clocks-stopped'], says: ['While it is frozen keep it frozen, and thaw only what can be dried in one go.'] } },
  { source: 'own: both cautious sides', what: 'nobody says whether it is wet', observed: { wetState: 'unknown' }, expect: { startByHours: 48, routes: { treat: ['assess', 'rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'] }, says: ['If it turns out dry, it is not wetted.'] } },
  { source: 'own: the cautious side of every material', what: 'a lump nobody can name', observed: { materialClass: 'unknown', fibre: 'unknown' }, expect: { startByHours: 6, binding: 'blocking', open: ['refer'], bath: 'alone', routes: { refer: ['assess', 'pack', 'refer'] }, says: ['Never wash, freeze or take it apart before someone has said what it is.'] } },
  { source: 'own, after the textile rule', what: 'a very degraded book', observed: { materialClass: 'book-bound', fragility: 'very-degraded' }, expect: { first: 'refer' } },
  { source: 'S5, S55', what: 'a sampler in a gilded frame', observed: { materialClass: 'textile-flat-small', parts: ['wood-painted-or-gilded'] }, expect: { startByHours: 2, treatedAs: 'wood-painted-or-gilded', bath: 'alone', open: ['refer', 'treat'], routes: { treat: ['dry', 'check', 'wrap', 'hand-back'] }, says: ['Mixed object: watch its weakest part at every step.', 'Never wipe paint or gilding.', 'Never wring or twist it.'] } },
  {
    source: 'S5, S55; the order of ways ours', what: 'a leather bible with glossy maps', observed: { materialClass: 'book-leather-or-vellum', parts: ['paper-coated'] },
    expect: { startByHours: 2, treatedAs: 'book-leather-or-vellum', open: ['hold-frozen', 'treat', 'refer'], says: ['Never let it dry in a block.', 'Never remove the covers.'] },
  },
  {
    source: 'Tieu (S56); weight from memory', what: 'a small cloth full of mud', observed: { soil: 'heavy-mud', water: 'black' },
    expect: { says: ['Heavy mud: a bath or rinse of its own before the shared one.', 'Things without mud, until its own mud is off.', 'Mud adds its own weight: two people if in doubt.'], keepsOff: ['no-lifting'] },
  },
  { source: 'S3, S4, S55', what: 'a clock with loose parts', observed: { materialClass: 'wood-small-object', detachedParts: true }, expect: { says: ['Tag whatever comes off, bag it with its object, keep original labels.'] } },
  { source: 'NPS Primer 33 (S87)', what: 'packing by wetness', observed: {}, expect: { says: ['Things of another wetness: very wet, damp, mouldy and rare are packed apart.'] } },
];

/** The trade as a practitioner states it, and how a family keeps things. */
export const PRACTICE_ROWS: readonly Row[] = [
  { source: 'practice', what: 'before anything', observed: {}, expect: { says: ['Before anything, weigh what it means, how it is damaged and how long it will take.'], ppe: ['powder-free nitrile gloves'] } },
  { source: 'section 9 no. 9; OSHA (S39) names carbon monoxide', what: 'fans that a generator drives', observed: { materialClass: 'book-bound' }, expect: { says: ['A generator runs outdoors, far from doors and windows: its fumes kill without a smell.'] } },
  { source: 'own: no source says where the bench stands', what: 'where it is wrapped for the freezer', observed: {}, expect: { reasons: ['freezing.wrap.bench'] } },
  { source: 'practice', what: 'water of unknown kind', observed: { water: 'unknown' }, expect: { says: ['What was in the water is not known; chemicals and raw sewage are possible.'] } },
  { source: 'practice', what: 'mould', observed: { mould: 'active' }, expect: { says: ['Mask and eye protection before the bag is opened.'] } },
  { source: 'practice', what: 'colour test', observed: { allColoursTested: false }, expect: { says: ['Each colour by itself, with a barely damp swab or sponge.'] } },
  {
    source: 'practice', what: 'one colour moves', observed: { alreadyBled: true, significance: 'valued' },
    expect: { says: ['Never wet or rinse it at all: its dye moves.', 'Photograph it clearly and write down what it is.', 'Ask for the family’s memories of it, spoken if that is easiest, and set it aside.'], open: ['refer', 'treat', 'hold-frozen'] },
  },
  { source: 'practice', what: 'a very precious piece whose colour moves', observed: { alreadyBled: true, significance: 'irreplaceable' }, expect: { open: ['refer', 'hold-frozen', 'treat'], says: ['A specialist may cost money: agree a limit with the owner first.'] } },
  { source: 'practice', what: 'wrapping for the freezer', observed: {}, expect: { says: ['Wax-coated freezer paper at every fold, not baking parchment; then a freezer bag.', 'Write the label on tape that holds in the cold, on the outside.'] } },
  { source: 'practice', what: 'lifting', observed: {}, expect: { says: ['Lift it on plastic screen mesh.', 'Never carry or dry it on metal mesh: metal rusts.'] } },
  { source: 'practice', what: 'three baths', observed: {}, expect: { says: ['Distilled water with nothing added; let it soak until the folds relax, then ease debris out.', 'Three baths, a drip between; look, and run the three again until it is clean enough.', 'Never press it hard.', 'Whites if it is coloured, colours if it is white.'] } },
  { source: 'practice', what: 'towels', observed: {}, expect: { says: ['Flat on white towels, cheesecloth over it, a white towel on top; roll gently, move to dry towelling, repeat.', 'Colour on the cheesecloth is a stop: lay flat, report that the dye moved.'] } },
  { source: 'practice', what: 'where it dries', observed: {}, expect: { says: ['Over a padded rail, or on a rack open to the air above and below.', 'Never let a fan blow on the piece; it may move the room’s air.'] } },
  { source: 'practice', what: 'a full-size quilt in good weather', observed: { materialClass: 'textile-quilt-padded' }, expect: { says: ['Two people for every move of a large quilt.', 'Full size and good weather: on a slanted board covered with a tarp, a gentle low-pressure rinse from a distance.', 'Outdoors only under a canopy: sun bleaches.'] } },
  {
    source: 'practice', what: 'storage of a quilt', observed: { wetState: 'dry' },
    expect: { says: ['Keep it in a soft white pillowcase or an archival box.', 'Pad the folds with plain white paper towel, never printed, or with archival tissue.', 'In a plastic bin add a desiccant.', 'Keep it high up, away from places that flood or sweat.', 'Look at it now and then.'] },
  },
  { source: 'CCI 13/15 (S17); acid-free from memory; two weeks ours; inside: Waters (S26)', what: 'storage of cloth', observed: { wetState: 'dry' }, expect: { says: ['Keep cloth in moving air below 60 % relative humidity.', 'Put it away clean and fully dry, in acid-free paper, not against bare wood.', 'Dry air in the room does not mean that it is dry inside.', 'Look at it after two weeks, and feel inside folds, spines and padding; if it is damp, smells musty or shows new spots, take it into dry air apart from other things, and ask.'], silentOn: ['It is not known to be dry: spread it out in moving air, away from sun and heaters, before you put it away.'] } },
  { source: 'own', what: 'a thing given back damp', observed: { wetState: 'damp' }, expect: { says: ['It is not known to be dry: spread it out in moving air, away from sun and heaters, before you put it away.'] } },
  { source: 'CDC (S34), NPS (S1), Iowa chart (S7)', what: 'cloth from river water, cleaned', observed: { wetState: 'dry', water: 'black' }, expect: { says: ['It lay in contaminated water and is not sterile: wash your hands after handling, and keep it from small children, food and bedding.'] } },
  { source: 'own, after MNHS books (S9)', what: 'storage of books', observed: { materialClass: 'book-bound', wetState: 'dry' }, expect: { says: ['Keep books and papers at or below 50 % relative humidity, upright or flat, not pressed.'] } },
  { source: 'own, after MNHS wood (S10)', what: 'storage of wood', observed: { materialClass: 'wood-small-object', wetState: 'dry' }, expect: { says: ['Keep wood at 50-55 % relative humidity, away from heaters and sun; it goes on drying for weeks.'] } },
  { source: 'own', what: 'storage of photographs', observed: { materialClass: 'photo-albumen', wetState: 'dry' }, expect: { says: ['Keep photographs cool, dry and flat, each in its own folder; touch only the edges.'] } },
];
