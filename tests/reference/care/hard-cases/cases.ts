import type { Assessment, StepKind } from '#care';

/** A hard assessment of our own; people and things are invented. */
export interface HardCase {
  title: string;
  observed: Partial<Assessment>;
  hours: number;
  airTempC?: number;
  doneSteps?: StepKind[];
  /** What we think a conservator would write into the margin; not a conservator's words. */
  note: string;
}

const UNASKED = { treat: null, freeze: null, refer: null, release: null } as const;
const tested = (colour: string, reading: Assessment['colourTests'][number]['reading'], solution: 'water' | 'detergent' = 'water') => ({ colour, solution, method: 'swab' as const, reading });

/** Twenty-five of them, for a reader to judge. */
export const HARD_CASES: readonly HardCase[] = [
  {
    title: 'A quilt of forty prints, one of which bleeds', hours: 14,
    observed: { materialClass: 'textile-quilt-padded', water: 'black', significance: 'irreplaceable', colours: ['turkey red', 'indigo', 'white', 'green'], colourTests: [tested('turkey red', '2-3'), tested('indigo', '5'), tested('white', '5')], soil: 'light' },
    note: 'One red decides for the whole quilt. No water, layers apart, photograph it now. It means everything to them, so the freezer is the second best, singly and interleaved, while somebody finds a textile conservator.',
  },
  {
    title: 'The same quilt, every colour passed, but green was never tested', hours: 14,
    observed: { materialClass: 'textile-quilt-padded', water: 'black', colours: ['indigo', 'green'], colourTests: [tested('indigo', 'no-transfer')], allColoursTested: true, soil: 'light' },
    note: 'The tester ticked "all", the list says otherwise. Test green before anything touches water.',
  },
  {
    title: 'A photograph in a case, nobody knows what it is', hours: 9,
    observed: { materialClass: 'photo-unknown-process', water: 'unknown', fragility: 'unknown', mould: 'unknown', onlyCopy: null, highMarketValue: null, consents: UNASKED },
    note: 'Could be a daguerreotype, could be a tintype, could be a print. Treat it as all of them: face up, untouched, no water, no freezer, someone who knows within the hour.',
  },
  {
    title: 'Two hundred and forty colour prints at hour thirty, table space for eighty', hours: 30,
    observed: { materialClass: 'photo-colour-print', count: 240, water: 'black', mould: 'none', onlyCopy: null, consents: { treat: true, freeze: true, refer: null, release: null } },
    note: 'Eighteen hours left. Rinse and lay out what the tables take, freeze the rest wet in small bags. They do not all have to go the same way.',
  },
  {
    title: 'A toy soaked in sewage, the parents undecided', hours: 6,
    observed: { materialClass: 'textile-stuffed', water: 'black', hazards: ['sewage'], significance: 'everyday', consents: UNASKED },
    note: 'Everyday toy, sewage: nobody here washes it. Double-bag, ask the authority. Do not throw it away before somebody has said yes.',
  },
  {
    title: 'The same toy, and the child’s only one', hours: 6,
    observed: { materialClass: 'textile-stuffed', water: 'black', hazards: ['sewage'], significance: 'irreplaceable', consents: { treat: true, freeze: true, refer: true, release: false } },
    note: 'The plea changes what it means, not what is in it. Still not on our line. A freezer kept apart is thinkable if the lead writes it down.',
  },
  {
    title: 'A bible with glossy maps and photographs pasted in', hours: 5,
    observed: { materialClass: 'book-leather-or-vellum', parts: ['paper-coated', 'photo-silver-gelatin'], water: 'black', wetState: 'dripping' },
    note: 'Leather wants to be dried, the glossy maps want the freezer before they stick, the photographs stand both. Whole and into the freezer; nobody opens it.',
  },
  {
    title: 'An oil painting in a gilded frame, from river water', hours: 3,
    observed: { materialClass: 'painting-canvas', parts: ['wood-painted-or-gilded'], water: 'black', highMarketValue: null },
    note: 'Out of the frame if that can be done without touching the gilding, on its stretcher, never frozen. Telephone first.',
  },
  {
    title: 'An iron stove door from the sea', hours: 20,
    observed: { materialClass: 'metal-iron', water: 'salt', soil: 'heavy-mud' },
    note: 'Everyone’s hand goes to the towel. Salt: it stays in fresh water until somebody has decided.',
  },
  {
    title: 'An iron stove door from the river', hours: 5,
    observed: { materialClass: 'metal-iron', water: 'black', soil: 'heavy-mud' },
    note: 'Rinse, wipe, dry, warm if you like. In one go, today.',
  },
  {
    title: 'A low-fired pot from salt water', hours: 10,
    observed: { materialClass: 'ceramic-low-fired', water: 'salt', detachedParts: true },
    note: 'Must not dry with the salt in it and must not soak. Damp, covered, and ask.',
  },
  {
    title: 'A beaded dance dress with a steel zip and silk lining', hours: 8,
    observed: { materialClass: 'textile-composite', parts: ['textile-silk', 'metal-iron'], fibre: 'silk', water: 'grey', fragility: 'weak' },
    note: 'The zip rusts, gelatin sequins melt, the lining spots. No bath. Blot, pad, dry fast and watched.',
  },
  {
    title: 'A herbarium nobody has opened since the nineteen-twenties', hours: 12,
    observed: { materialClass: 'herbarium', water: 'black', significance: 'valued' },
    note: 'Mercury first, plants second. Gloves and mask, closed, and to people who know.',
  },
  {
    title: 'A telephone with the only pictures of a grandmother', hours: 4,
    observed: { materialClass: 'device-with-battery', water: 'salt', significance: 'irreplaceable', onlyCopy: true },
    note: 'They will beg to switch it on. Do not. Outdoors, alone, and a recovery firm.',
  },
  {
    title: 'A box of wedding videos, one of them MiniDV', hours: 20,
    observed: { materialClass: 'tape-ferric', parts: ['tape-metal-particle'], count: 12, water: 'black' },
    note: 'The small metal tape is oxidising while the VHS can wait in cold water. Split the box: together they can only be sent.',
  },
  {
    title: 'The same box without the MiniDV', hours: 20,
    observed: { materialClass: 'tape-ferric', count: 11, water: 'black' },
    note: 'Very cold distilled water buys time. Not tap water, not the freezer, and nobody plays one to see.',
  },
  {
    title: 'A reel of film that smells of vinegar', hours: 7,
    observed: { materialClass: 'film-safety-deteriorated', water: 'black', onlyCopy: true },
    note: 'Early, to a film laboratory, not rinsed here. It is not nitrate, but look twice.',
  },
  {
    title: 'A scrapbook with pressed flowers, ink and prints, mould in one corner', hours: 60,
    observed: { materialClass: 'album-or-scrapbook', parts: ['photo-silver-gelatin', 'paper-soluble-media'], water: 'black', mould: 'active' },
    note: 'Mould, ink and stuck prints: whole into the freezer, bagged, mask on. Nobody turns a page.',
  },
  {
    title: 'A wool coat that nobody has looked at for three days', hours: 72, airTempC: 31,
    observed: { materialClass: 'textile-wool', fibre: 'wool', water: 'unknown', mould: 'unknown', wetState: 'unknown', wettedAtMs: null, significance: 'treasured' },
    note: 'Three warm days in river water: I would expect mould before I see it. Quarantine until someone with a mask has looked.',
  },
  {
    title: 'A dry quilt, tide lines, its owner wants it washed', hours: 120,
    observed: { materialClass: 'textile-quilt-padded', wetState: 'dry', water: 'black', mould: 'none', significance: 'treasured' },
    note: 'It is dry now. Brush it, do not wash it, and say plainly that the water it lay in is still in it.',
  },
  {
    title: 'An inlaid writing box with letters stuck in the drawer', hours: 26,
    observed: { materialClass: 'furniture-veneered-or-inlaid', parts: ['paper-soluble-media'], water: 'black', detachedParts: true, oldRepairs: true },
    note: 'The drawer will not come and must not be forced; the ink in it is the clock. Someone who opens boxes, today.',
  },
  {
    title: 'A child’s linen christening gown, grade 4-5 in detergent', hours: 10,
    observed: { materialClass: 'textile-garment-3d', fibre: 'linen', water: 'clean', colourTests: [tested('ecru', '5'), tested('blue ribbon', '4-5', 'detergent')], significance: 'irreplaceable' },
    note: 'The ribbon gives a trace. Alone, cold, plain water, and out at the first blue. Some would not rinse it at all.',
  },
  {
    title: 'Ninety-nine damp books and one more', hours: 12,
    observed: { materialClass: 'book-bound', wetState: 'damp', count: 100, water: 'clean' },
    note: 'The hundredth does not change the other ninety-nine, but somebody has to draw the line: freeze, and dry what the room takes.',
  },
  {
    title: 'An ivory miniature under glass with a lock of hair', hours: 6,
    observed: { materialClass: 'bone-or-ivory', parts: ['glass-object', 'painting-canvas'], water: 'grey', highMarketValue: true },
    note: 'Ivory cracks when it dries fast, paint on ivory dissolves. Never frozen, never opened here. A conservator, and tell the owner it may be worth something.',
  },
  {
    title: 'A stone carving that was painted, from sewage-laden water', hours: 30,
    observed: { materialClass: 'stone', parts: ['wood-painted-or-gilded'], water: 'black', hazards: ['sewage', 'sharps'], alreadyBled: true },
    note: 'Stone alone could wait and be washed. Paint that runs and sewage: bag it, mark it, hands off.',
  },
];
