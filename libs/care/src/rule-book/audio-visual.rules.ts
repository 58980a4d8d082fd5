/** Tape, discs, and things that run on electricity (care guidance, section 1d). */
import { fromMemory, own, practice, published } from '../sources.js';
import type { MaterialClass } from '../types.js';
import { addStep, always, apart, bar, caution, clock, never, offer, prefer, referral, STEPS, wet } from './rule.js';
import type { Rule } from './rule.js';

const TAPES: readonly MaterialClass[] = ['tape-ferric', 'tape-metal-particle', 'tape-acetate-reel'];
const MAGNETIC: readonly MaterialClass[] = [...TAPES, 'floppy-disc'];
const POWERED: readonly MaterialClass[] = ['drive-or-memory-card', 'device-with-battery'];

const TAPE_NOTES = 'tape recovery notes of the trade, seen in copies.';
const RESPONSE_SLIDES = 'statewide disaster-response slides (H. Seo, 2014), a secondary source.';

const tapes: Rule[] = [
  {
    id: 'tape.specialist',
    text: 'A wet tape reaches a specialist within two days.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: TAPES,
    applies: wet,
    concludes: [clock('binder-loss', 'tape'), prefer('refer', 5), bar('treat'), referral('Wet tape: keep it as wet as it is, unplayed, and ask a specialist in tape within two days.')],
    source: published('nlmTape'),
    choice: '48 h for every wet tape, metal tape first.',
    alternative: '48 h only for tapes in paper boxes, otherwise several days (US National Library of Medicine, sound and video page).',
    choiceId: 'tape-clock',
  },
  {
    id: 'tape.ferric.hold-wet',
    text: 'Ferric tape can be held for longer in very cold distilled water, at the wetness in which it was found.',
    because: ['materialClass', 'wetState'],
    classes: ['tape-ferric'],
    applies: wet,
    concludes: [
      offer('hold-wet', 10, STEPS.holdWet),
      caution('Keep it at the same wetness: very cold distilled water.', { steps: ['stabilise'] }),
      caution('Rinse dirt off with cool distilled water only.', { steps: ['stabilise', 'pack'] }),
      never('Never let a wet tape dry on its own.'),
      never('Never use chlorinated tap water on tape.'),
    ],
    source: published('nlmTape'),
  },
  {
    id: 'tape.metal.before-ferric',
    text: 'Metal tape, MiniDV and acetate reels go before ferric tape.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['tape-metal-particle', 'tape-acetate-reel'],
    applies: wet,
    concludes: [prefer('refer', 3), addStep('stabilise', 'refer'), caution('Out of the water and on its way first; keep immersion as short as can be.', { steps: ['stabilise', 'pack'] })],
    source: published('nlmTape'),
  },
  {
    id: 'tape.metal.hours',
    text: 'Metal tape and acetate reels are started within twelve hours.',
    because: ['materialClass', 'wetState', 'wettedAtMs'],
    classes: ['tape-metal-particle', 'tape-acetate-reel'],
    applies: wet,
    concludes: [clock('binder-loss', 'metal-tape')],
    source: own('the source says before ferric; the hours are ours.'),
  },
  {
    id: 'tape.metal.not-left-wet',
    text: 'Metal tape that stays wet oxidises and is lost.',
    because: ['materialClass', 'wetState'],
    classes: ['tape-metal-particle'],
    applies: always,
    concludes: [bar('hold-wet'), never('Never leave metal tape wet.')],
    source: published('nlmTape'),
  },
  {
    id: 'tape.acetate.not-left-wet',
    text: 'Acetate reels are not held in water either.',
    because: ['materialClass', 'wetState'],
    classes: ['tape-acetate-reel'],
    applies: always,
    concludes: [bar('hold-wet'), never('Never leave an acetate reel in water.')],
    source: practice(TAPE_NOTES),
  },
  {
    id: 'tape.no-freezing',
    text: 'Tape is never frozen and never freeze-dried.',
    because: ['materialClass'],
    classes: TAPES,
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze or freeze-dry tape.')],
    source: published('nlmTape'),
    floor: true,
  },
  {
    id: 'tape.not-played',
    text: 'A wet tape is destroyed by playing it.',
    because: ['materialClass'],
    classes: TAPES,
    applies: always,
    concludes: [never('Never play a tape that was wet.'), never('Never turn the reels of a wet cassette.')],
    source: published('nlmTape'),
  },
  {
    id: 'tape.dry.stable',
    text: 'A tape that has dried by itself is stable.',
    because: ['materialClass', 'wetState'],
    classes: TAPES,
    applies: (_assessment, facts) => facts.dry,
    concludes: [never('Never wet again a tape that has dried.')],
    source: practice(TAPE_NOTES),
  },
  {
    id: 'floppy.route',
    text: 'Floppy discs are packed at once and air dried within two days.',
    because: ['materialClass', 'wetState'],
    classes: ['floppy-disc'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.supportAndAirDry), prefer('refer', 15), never('Never touch the disc in its sleeve with bare hands.'), caution('Pack at once; the maker or a specialist reads what matters.', { steps: ['stabilise', 'pack'] })],
    source: published('iowaChart'),
  },
  {
    id: 'floppy.hold-wet',
    text: 'Rinsed, wet and upright a floppy disc can wait up to three days.',
    because: ['materialClass', 'wetState'],
    classes: ['floppy-disc'],
    applies: wet,
    concludes: [offer('hold-wet', 20, STEPS.holdWet), caution('Rinse and hold wet and upright, for 72 hours at most.', { steps: ['stabilise'] })],
    source: practice(RESPONSE_SLIDES),
  },
  {
    id: 'floppy.no-freezing',
    text: 'No guidance was found for freezing floppy discs; the bar on tape is carried over.',
    because: ['materialClass'],
    classes: ['floppy-disc'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never freeze floppy discs.')],
    source: own('magnetic like tape, and silence of the sources read as no.'),
    floor: true,
  },
  {
    id: 'magnetic.apart',
    text: 'Magnetic things are kept from magnets.',
    because: ['materialClass'],
    classes: MAGNETIC,
    applies: always,
    concludes: [apart('bag', 'Keep it from magnets, motors and loudspeakers.')],
    source: own('magnetic records and magnetic fields.'),
  },
];

const discs: Rule[] = [
  {
    id: 'disc.gramophone.route',
    text: 'Vinyl and shellac discs are air dried upright, held by the edge.',
    because: ['materialClass', 'wetState'],
    classes: ['disc-vinyl-or-shellac'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.airDry), caution('Dry it upright; hold it by the edge.', { steps: ['dry', 'wrap'] })],
    source: published('iowaChart'),
  },
  {
    id: 'disc.gramophone.freezing',
    text: 'Freezing gramophone discs is untested; if it cannot be helped, no colder than -18 C.',
    because: ['materialClass', 'wetState'],
    classes: ['disc-vinyl-or-shellac'],
    applies: wet,
    concludes: [offer('hold-frozen', 60, STEPS.freeze), { kind: 'not-colder', limit: 'disc' }, caution('Freezing is untested for gramophone discs: only if it cannot be helped, and no colder than -18 C.', { steps: ['freeze'] })],
    source: published('iowaChart'),
  },
  {
    id: 'disc.optical.route',
    text: 'CDs and DVDs are cleaned and air dried within two days, or rinsed and kept wet in cool water.',
    because: ['materialClass', 'wetState'],
    classes: ['disc-optical'],
    applies: wet,
    concludes: [offer('treat', 10, STEPS.rinseAndAirDry), offer('hold-wet', 20, STEPS.holdWet), caution('Cool clean water.', { steps: ['rinse', 'stabilise', 'dry'] })],
    source: practice(RESPONSE_SLIDES),
  },
  {
    id: 'disc.optical.care',
    text: 'Optical discs scratch along the track; only their paper is frozen.',
    because: ['materialClass'],
    classes: ['disc-optical'],
    applies: always,
    concludes: [bar('hold-frozen'), never('Never rub a disc in circles: straight from the middle out.'), caution('Take paper inserts out; they go the way of paper, to the freezer if need be.', { steps: ['rinse', 'stabilise', 'pack'] })],
    source: fromMemory('freeze only the paper inserts; no rubbing in circles.'),
    floor: true,
  },
];

const powered: Rule[] = [
  {
    id: 'powered.specialist',
    text: 'Drives, phones and cards stay switched off, closed and damp, for a specialist.',
    because: ['materialClass'],
    classes: POWERED,
    applies: always,
    concludes: [
      prefer('refer', 4), bar('treat'), bar('hold-frozen'), bar('hold-wet'),
      never('Never switch on or charge a device that was wet.'), never('Never open it.'),
      caution('Bag it damp, marked on the outside.', { steps: ['pack'] }),
      referral('Drive, phone or card that was wet: leave it off and closed, bag it damp, ask a data-recovery specialist.'),
    ],
    source: fromMemory('power off; specialist; bag damp, do not open, do not power.'),
    floor: true,
  },
  {
    id: 'powered.battery.apart',
    text: 'A device with a battery stays apart from everything that burns.',
    because: ['materialClass'],
    classes: ['device-with-battery'],
    applies: always,
    concludes: [apart('bag', 'Alone, outdoors or in a metal box, away from everything that burns.')],
    source: fromMemory('lithium cells wetted by salt water are a delayed fire risk: isolate outdoors.'),
    floor: true,
  },
];

/** Rules about audio-visual and digital things, in reading order. */
export const AUDIO_VISUAL_RULES: readonly Rule[] = [...tapes, ...discs, ...powered];
