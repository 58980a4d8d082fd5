import type { Row } from './row.js';

const AIR_DRIED = ['dry', 'check', 'wrap', 'hand-back'] as const;
const BLOTTED = ['blot', 'dry', 'check', 'wrap', 'hand-back'] as const;
const RINSED = ['rinse', 'blot', 'dry', 'check', 'wrap', 'hand-back'] as const;

/** Care guidance, section 1d, row by row. */
export const AUDIO_VISUAL_ROWS: readonly Row[] = [
  {
    row: '1d ferric tape', source: 'NLM (S25); recovery notes (S79)', what: 'a VHS cassette', observed: { materialClass: 'tape-ferric' },
    expect: {
      startByHours: 48, binding: 'binder-loss', open: ['refer', 'hold-wet'],
      says: [
        'Wet tape: keep it as wet as it is, unplayed, and ask a specialist in tape within two days.', 'Keep it at the same wetness: very cold distilled water.', 'Rinse dirt off with cool distilled water only.', 'Never let a wet tape dry on its own.',
        'Never use chlorinated tap water on tape.', 'Never freeze or freeze-dry tape.', 'Never play a tape that was wet.', 'Never turn the reels of a wet cassette.', 'Keep it from magnets, motors and loudspeakers.',
      ],
    },
  },
  {
    row: '1d metal tape', source: 'NLM (S25); S79; 12 h ours', what: 'a MiniDV cassette', observed: { materialClass: 'tape-metal-particle' },
    expect: { startByHours: 12, binding: 'binder-loss', open: ['refer'], routes: { refer: ['stabilise', 'pack', 'refer'] }, says: ['Never leave metal tape wet.', 'Out of the water and on its way first; keep immersion as short as can be.', 'Never freeze or freeze-dry tape.'] },
  },
  {
    row: '1d metal tape', source: 'S79, practice; 12 h ours', what: 'an acetate reel', observed: { materialClass: 'tape-acetate-reel' },
    expect: { startByHours: 12, open: ['refer'], says: ['Never leave an acetate reel in water.'] },
  },
  { row: '1d dry tape', source: 'recovery notes (S79), practice', what: 'a cassette that has dried', observed: { materialClass: 'tape-ferric', wetState: 'dry' }, hours: 72, expect: { urgency: 'can-wait', open: ['treat', 'refer'], routes: { treat: ['check', 'wrap', 'hand-back'] }, says: ['Never wet again a tape that has dried.'] } },
  {
    row: '1d floppy', source: 'Iowa chart (S7); slides (S90), practice; freezing ours', what: 'floppy discs', observed: { materialClass: 'floppy-disc' },
    expect: { startByHours: 48, open: ['treat', 'refer', 'hold-wet'], says: ['Never touch the disc in its sleeve with bare hands.', 'Rinse and hold wet and upright, for 72 hours at most.', 'Never freeze floppy discs.', 'Pack at once; the maker or a specialist reads what matters.'] },
  },
  {
    row: '1d vinyl, shellac', source: 'Iowa chart (S7)', what: 'a shellac record', observed: { materialClass: 'disc-vinyl-or-shellac' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: AIR_DRIED }, notColderThanC: -18, says: ['Dry it upright; hold it by the edge.', 'Freezing is untested for gramophone discs: only if it cannot be helped, and no colder than -18 C.'] },
  },
  {
    row: '1d CD, DVD', source: 'slides (S90), practice; rubbing and paper from memory', what: 'a DVD', observed: { materialClass: 'disc-optical' },
    expect: {
      startByHours: 48, open: ['treat', 'hold-wet', 'refer'], routes: { treat: ['rinse', ...AIR_DRIED] },
      says: ['Cool clean water.', 'Never rub a disc in circles: straight from the middle out.', 'Take paper inserts out; they go the way of paper, to the freezer if need be.'],
    },
  },
  {
    row: '1d drives, phones, cards', source: 'from memory', what: 'a hard drive', observed: { materialClass: 'drive-or-memory-card' },
    expect: { open: ['refer'], says: ['Never switch on or charge a device that was wet.', 'Never open it.', 'Bag it damp, marked on the outside.', 'Drive, phone or card that was wet: leave it off and closed, bag it damp, ask a data-recovery specialist.'] },
  },
  {
    row: '1d drives, phones, cards', source: 'from memory', what: 'a wet telephone', observed: { materialClass: 'device-with-battery' },
    expect: {
      startByHours: 2, binding: null, open: ['refer'],
      says: ['Lithium cell that was wet: stop. If it is hot, swollen, hissing or smoking: do not touch it, get away, call the fire service. If not: put it outdoors, alone, away from anything that burns, and call the competent authority.', 'Never charge or switch it on.', 'Alone, outdoors or in a metal box, away from everything that burns.'],
    },
  },
  { source: 'own: wet records may fail later', what: 'a tape that is given back', observed: { materialClass: 'tape-ferric', wetState: 'dry' }, expect: { says: ['Have it copied before you rely on it, and keep the copy elsewhere.'] } },
];

/** Care guidance, section 1e, row by row. */
export const ORGANIC_ROWS: readonly Row[] = [
  {
    row: '1e paintings', source: 'S7, MNHS (S12), AIC (S15), CCI 10/5 (S16), CERF+ (S29); 2 h ours', what: 'an oil painting on canvas', observed: { materialClass: 'painting-canvas' },
    expect: {
      startByHours: 2, binding: 'flaking', open: ['refer', 'treat'],
      says: [
        'Painting: leave it on its stretcher and touch no paint, ask a conservator at once.', 'Never peel facing tissue or loose paint.', 'Never take a canvas off its stretcher or strainer.', 'Out of the frame, left on its stretcher; blot from the back only.',
        'Plain air drying may make the paint flake: ask first, dry only what nobody can come for.', 'Ask the conservator whether it lies face up or face down, and write down the answer.', 'Never freeze a painting.', 'Discard no painting and no flake of it: total loss is rare.',
      ],
    },
  },
  {
    row: '1e painted, gilded wood', source: 'MNHS (S10); S83; 2 h and slow drying ours', what: 'a gilded angel', observed: { materialClass: 'wood-painted-or-gilded' },
    expect: { startByHours: 2, binding: 'flaking', open: ['refer', 'treat'], routes: { treat: AIR_DRIED }, says: ['Never wipe paint or gilding.', 'Painted or gilded wood: leave the surface alone, ask a conservator of objects at once.', 'Slowly, nothing touching the paint, away from sun, heat and fans.'] },
  },
  {
    row: '1e solid wood furniture', source: 'MNHS (S10); S77', what: 'an oak table', observed: { materialClass: 'furniture-solid-wood' },
    expect: {
      startByHours: 24, binding: 'warping', open: ['treat', 'refer'], routes: { treat: RINSED },
      says: [
        'Begin early, dry slowly: down to 50-55 % relative humidity, never forced.', 'Never scour wood with grit.', 'Never dry wood in sun or heat, or with a fan blowing on it.', 'Sponge or rinse the mud off, blot dry.', 'Thoroughly wet unpainted wood: blotter round it, then polythene.',
        'Lift tables by the apron, chairs by the seat rail, trunks from below.', 'Never freeze furniture or instruments.',
      ],
    },
  },
  { row: '1e solid wood furniture', source: 'CERF+ (S29): small wood may be frozen', what: 'a wooden toy', observed: { materialClass: 'wood-small-object' }, expect: { startByHours: 24, binding: 'warping', open: ['treat', 'hold-frozen', 'refer'], routes: { treat: RINSED } } },
  {
    row: '1e veneer, instruments', source: 'AIC wiki (S13); weight from memory; 24 h ours', what: 'an inlaid box table', observed: { materialClass: 'furniture-veneered-or-inlaid' },
    expect: { startByHours: 24, binding: 'delamination', open: ['treat', 'refer'], routes: { treat: BLOTTED }, says: ['Never force a stuck drawer.', 'Hide and fish glue soften: joints open and veneer lifts.', 'Hold lifting veneer with a light weight.'] },
  },
  {
    row: '1e veneer, instruments', source: 'AIC wiki (S13); asking first ours', what: 'a fiddle', observed: { materialClass: 'musical-instrument' },
    expect: { startByHours: 24, binding: 'delamination', open: ['refer', 'treat'], says: ['Loosen or open nothing on an instrument before its maker or a conservator has been asked.'] },
  },
  {
    row: '1e upholstery', source: 'AIC wiki (S13)', what: 'a horsehair settee', observed: { materialClass: 'furniture-upholstered' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: BLOTTED }, says: ['Only the show fabric may be frozen.', 'Cotton stuffing is let go with the owner’s yes; horsehair is usually kept.'] },
  },
  {
    row: '1e upholstery', source: 'CDC (S34)', what: 'an armchair without meaning, from river water', observed: { materialClass: 'furniture-upholstered', significance: 'everyday', water: 'black' },
    expect: { first: 'release', says: ['Public-health lists discard upholstered furniture from flood water; the owner decides.'] },
  },
  {
    row: '1e tanned leather', source: 'S3, AIC wiki (S14); 48 h from memory; freezing: CERF+ (S29)', what: 'a leather satchel', observed: { materialClass: 'leather-tanned' },
    expect: { startByHours: 48, open: ['treat', 'hold-frozen', 'refer'], routes: { treat: BLOTTED }, says: ['Never warm leather.', 'Pad it out to its shape; flex what must stay flexible as it dries. It may stiffen and darken.'], reasons: ['leather.tanned.two-days'] },
  },
  { row: '1e tanned leather', source: 'S3, S14', what: 'a muddy satchel', observed: { materialClass: 'leather-tanned', soil: 'heavy-mud', water: 'black' }, expect: { routes: { treat: ['rinse', ...BLOTTED] }, says: ['Rinse the mud off leather before it is padded out.'] } },
  {
    row: '1e semi-tanned leather', source: 'AIC wiki (S14); 2 h ours', what: 'an alum-tawed cover', observed: { materialClass: 'leather-semi-tanned' },
    expect: { startByHours: 2, binding: 'distortion', open: ['refer', 'hold-frozen'], says: ['Never soak semi-tanned or untanned skin for long.', 'Untanned or alum-tawed skin: keep it flat, cool and supported, ask a conservator.', 'It may fall apart: nothing under tension, full support.'] },
  },
  {
    row: '1e bone, ivory, horn', source: 'S3; CERF+ (S29)', what: 'an ivory brooch', observed: { materialClass: 'bone-or-ivory' },
    expect: { startByHours: 24, binding: 'cracking', open: ['treat', 'refer'], routes: { treat: AIR_DRIED }, says: ['Never freeze bone, ivory, horn, baleen or shell.', 'Fast drying cracks bone and ivory: dry them slowly.'] },
  },
  {
    row: '1e bone, ivory, horn', source: 'S3, S5; 24 h from memory', what: 'a baleen fan', observed: { materialClass: 'horn-baleen-or-shell' },
    expect: { startByHours: 24, binding: 'cracking', open: ['treat', 'refer'], routes: { treat: AIR_DRIED }, says: ['Fast drying cracks it: dry it slowly; baleen may need weights while it dries.'] },
  },
  {
    row: '1e taxidermy, herbarium, minerals', source: 'AIC wiki (S71); list of protection ours', what: 'a stuffed owl', observed: { materialClass: 'taxidermy-or-skin' },
    expect: {
      startByHours: 2, open: ['refer'], ppe: ['nitrile gloves', 'N95 respirator'],
      says: ['Never handle collected animals, plants or minerals with bare hands.', 'Old collections were treated with arsenic, DDT and mercury; fills of fossils may hold asbestos.', 'Never handle it with bare hands.'],
    },
  },
  { row: '1e taxidermy, herbarium, minerals', source: 'AIC wiki (S71)', what: 'a herbarium sheet', observed: { materialClass: 'herbarium' }, expect: { open: ['refer'], ppe: ['N95 respirator'] } },
  {
    row: '1e taxidermy, herbarium, minerals', source: 'AIC wiki (S71); air drying ours', what: 'an unnamed mineral', observed: { materialClass: 'mineral-or-fossil' },
    expect: { open: ['refer', 'treat'], routes: { treat: AIR_DRIED }, says: ['Never rinse a mineral or fossil that nobody has named.'] },
  },
  {
    row: '1e baskets', source: 'Univ. of Iowa Libraries (S57); 48 h from memory; freezing ours', what: 'a basket', observed: { materialClass: 'basket-or-plant-fibre' },
    expect: { startByHours: 48, open: ['treat', 'refer'], routes: { treat: BLOTTED }, says: ['Support it, bring it back to shape, dry it slowly; it may take many hours.', 'Never freeze a basket without advice.'], reasons: ['basket.two-days'] },
  },
  { source: 'own, after the textile rule', what: 'a chest whose stain has run', observed: { materialClass: 'furniture-solid-wood', alreadyBled: true }, expect: { routes: { treat: BLOTTED }, says: ['Never wet again a thing whose colour has moved.'] } },
];

/** Care guidance, section 1f, row by row. */
export const INORGANIC_ROWS: readonly Row[] = [
  ...(['ceramic-glazed', 'glass-object', 'stone', 'metal-other'] as const).map(
    (materialClass): Row => ({
      row: '1f glazed ceramic, glass, stone, metal', source: 'S3; MNHS (S11); FEMA 2017 (S31)', what: materialClass, observed: { materialClass },
      expect: { urgency: 'can-wait', binding: null, open: ['treat', 'refer'], routes: { treat: RINSED }, says: ['Rinse or sponge the mud off, blot, dry raised off the floor.', 'It can wait: things that spoil sooner come first.'] },
    }),
  ),
  { row: '1f glazed ceramic, glass, stone, metal', source: 'S3; freezing: some guides', what: 'a broken bowl', observed: { materialClass: 'ceramic-glazed', detachedParts: true }, expect: { says: ['Never glue shards before they are dry.', 'All shards of one object in one labelled container.', 'Never freeze ceramics or glass.'], reasons: ['mould.no-food'] } },
  { row: '1f glazed ceramic, glass, stone, metal', source: 'own', what: 'a stone', observed: { materialClass: 'stone' }, expect: { says: ['Never freeze stone or metal.'] } },
  {
    row: '1f iron, steel', source: 'S3; MNHS (S11); 6 h ours', what: 'an iron lamp from a river', observed: { materialClass: 'metal-iron', water: 'black' },
    expect: { startByHours: 6, binding: 'corrosion', open: ['treat', 'refer'], routes: { treat: RINSED }, says: ['Rinse, blot and dry in one go.', 'Bare metal only: gentle warmth of 32-38 C is acceptable.', 'Never leave iron wet.'] },
  },
  { row: '1f unfired ceramic', source: 'S3', what: 'a low-fired pot', observed: { materialClass: 'ceramic-low-fired' }, expect: { startByHours: 48, open: ['treat', 'refer'], routes: { treat: AIR_DRIED }, says: ['Slow air drying.', 'Never soak unfired or low-fired ceramic.'] } },
  {
    row: '1f salt-soaked', source: 'S3; 24 h ours', what: 'a stone carving from the sea', observed: { materialClass: 'stone', water: 'salt' },
    expect: { startByHours: 24, binding: 'salt-crystals', first: 'hold-wet', says: ['a conservator’s word that it may dry', 'Never let it dry with the salt in it.', 'Fresh water, until a conservator has decided.', 'Never simply let salt-soaked things dry.'] },
  },
  { row: '1f salt-soaked', source: 'S3 (section 11 row 13)', what: 'iron from the sea', observed: { materialClass: 'metal-iron', water: 'salt' }, expect: { first: 'hold-wet', says: ['Never let salt-soaked iron dry before a conservator has decided.', 'a conservator’s word that it may dry'], silentOn: ['Never leave iron wet.'] } },
  { row: '1f salt-soaked', source: 'own: no soaking meets no drying', what: 'a low-fired pot from the sea', observed: { materialClass: 'ceramic-low-fired', water: 'salt' }, expect: { startByHours: 24, binding: 'salt-crystals', first: 'refer', says: ['a conservator’s word that it may dry', 'Low-fired ceramic soaked in salt water: keep it damp and covered, ask a conservator.'], open: ['refer', 'treat'] } },
  { row: '1f salt-soaked', source: 'S3 (section 11 row 13)', what: 'a beaded dress from the sea', observed: { materialClass: 'textile-composite', water: 'salt' }, expect: { first: 'hold-wet', says: ['Fresh water takes the salt out; ask how many changes.', 'a conservator’s word that it may dry'] } },
  { row: '1f old repairs', source: 'S3', what: 'a mended jug', observed: { materialClass: 'ceramic-glazed', oldRepairs: true }, expect: { says: ['Old repairs may open: support both sides of every mend.'] } },
  { row: '1f old repairs', source: 'own: nobody has looked', what: 'a jug nobody looked at', observed: { materialClass: 'ceramic-glazed', oldRepairs: null }, expect: { says: ['Old repairs may open: support both sides of every mend.'] } },
];
