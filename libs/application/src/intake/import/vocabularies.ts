/**
 * Words that people write in the cells of an intake file, and what we read them as. All of it is our own calibration and
 * widens with use; nothing here is a finding. Whoever assesses the thing puts the class right; until then the rule book
 * works on the cautious side. Where an everyday word covers several classes the more vulnerable one is taken.
 */
import { MATERIAL_CLASSES, SIGNIFICANCES, WATER_KINDS, type MaterialClass, type Significance, type WaterKind } from '#care';
import { STANDARD_ITEM_KINDS, type StandardItemKind } from '#climate';
import { bestWord, foldWords, wordTable, type WordTable } from './word-table.js';

/** `strong` words name a fibre, a process or a state and win over the name of a thing ("wool blanket" is wool). */
const MATERIAL_WORDS: WordTable<MaterialClass> = wordTable<MaterialClass>({
  plain: {
    'textile-quilt-padded': 'quilt, patchwork, comforter, eiderdown, duvet, quilts, steppdecke, daunendecke, bettdecke',
    'textile-flat-large': 'coverlet, bedspread, blanket, flag, banner, rug, carpet, curtain, tablecloth, bed sheet, tapestry, decke, teppich, fahne, vorhang, tischdecke, tischtuch, wandteppich',
    'textile-flat-small': 'sampler, scarf, handkerchief, napkin, doily, lace, embroidery, linen, linens, pillowcase, tuch, schal, taschentuch, serviette, spitze, stickerei',
    'textile-garment-3d': 'shirt, dress, coat, jacket, trousers, skirt, suit, uniform, costume, gown, wedding dress, christening gown, blouse, glove, vest, hemd, hemden, kleid, kleider, mantel, jacke, hose, rock, anzug, taufkleid, brautkleid, bluse, tracht',
    'textile-hat-or-shoe': 'hat, bonnet, shoe, boot, slipper, hut, hute, schuh, schuhe, stiefel',
    'textile-everyday': 'laundry, everyday clothes, everyday clothing, towel, bedding, underwear, sock, jeans, t shirt, wasche, alltagskleidung, handtuch, handtucher, bettwasche, socken',
    'textile-stuffed': 'stuffed toy, soft toy, plush toy, stuffed animal, teddy, teddy bear, pillow, cushion, teddybar, stofftier, pluschtier, kissen',
    'textile-wool': 'sweater, jumper, cardigan, pullover, strickjacke',
    'textile-knit-bias-or-lined': 'crochet, crocheted, knitting, gestrick',
    'paper-soluble-media': 'letter, manuscript, watercolour, watercolor, ink drawing, postcard, recipe card, brief, briefe, handschrift, aquarell, postkarte',
    'paper-uncoated': 'document, paper, newspaper, certificate, drawing, sheet music, urkunde, urkunden, dokument, dokumente, papier, papiere, zeitung, zeichnung, noten',
    'paper-coated': 'magazine, brochure, catalogue, catalog, zeitschrift, prospekt, katalog',
    'paper-oversize': 'map, poster, blueprint, landkarte, plakat, bauplan',
    'album-or-scrapbook': 'album, photo album, scrapbook, fotoalbum, fotoalben, poesiealbum',
    'book-bound': 'book, bible, diary, notebook, atlas, ledger, buch, bucher, bibel, tagebuch, tagebucher',
    'photo-colour-print': 'photo, photograph, print, snapshot, colour print, color print, colour photo, color photo, foto, fotografie, farbfoto, farbfotos, abzug, abzuge',
    'photo-silver-gelatin': 'black and white photo, black and white print, black and white photograph, b w photo, schwarzweissfoto, schwarzweissfotos',
    'film-negative': 'negative, film, negativ',
    'film-transparency': 'slide, transparency, dia, dias',
    'film-roll': 'home movie, cine film, film reel, microfilm, filmrolle, schmalfilm, mikrofilm',
    'tape-ferric': 'cassette, video tape, videotape, vhs, audio tape, kassette, videokassette, tonband',
    'floppy-disc': 'floppy, floppy disc, floppy disk, diskette, disketten',
    'disc-vinyl-or-shellac': 'vinyl, gramophone record, lp, schallplatte, schallplatten',
    'disc-optical': 'cd, dvd, compact disc',
    'drive-or-memory-card': 'hard drive, hard disk, memory card, usb stick, festplatte, speicherkarte',
    'device-with-battery': 'phone, telephone, laptop, tablet, camera, handy, telefon, kamera',
    'painting-canvas': 'painting, oil painting, canvas, gemalde, olbild',
    'wood-small-object': 'wooden toy, wooden box, carving, wooden bowl, holzspielzeug, schnitzerei',
    'furniture-solid-wood': 'chair, table, chest, cupboard, bench, stool, stuhl, tisch, truhe, schrank, bank',
    'furniture-upholstered': 'armchair, sofa, settee, couch, sessel, polster',
    'musical-instrument': 'violin, fiddle, guitar, piano, accordion, clarinet, geige, violine, gitarre, klavier, akkordeon',
    'leather-tanned': 'leather bag, satchel, saddle, belt, handbag, ledertasche, sattel, gurtel',
    'taxidermy-or-skin': 'taxidermy, stuffed owl, stuffed bird, fur coat, fur, fell, pelz, pelzmantel, praparat',
    herbarium: 'pressed flowers, herbar',
    'mineral-or-fossil': 'mineral, fossil, fossils, mineralien, fossilien',
    'basket-or-plant-fibre': 'basket, wicker, straw, korb, korbe',
    'ceramic-glazed': 'plate, cup, vase, porcelain, china, crockery, teller, tasse, porzellan, geschirr',
    'ceramic-low-fired': 'terracotta, earthenware, clay figure, terrakotta, tonfigur',
    'glass-object': 'drinking glass, glassware, glasses, glaser',
    stone: 'stone carving, marble, slate, marmor, schiefer',
    'metal-other': 'silver, brass, pewter, copper, medal, coin, coins, zinn, messing, kupfer, medaille, munze, munzen',
  },
  strong: {
    'textile-silk': 'silk, seide, seiden',
    'textile-wool': 'wool, woollen, woolen, wolle, wolldecke',
    'textile-composite': 'beaded, sequin, beadwork, perlen, pailletten',
    'textile-silk-painted-or-weighted': 'painted silk, weighted silk, bemalte seide',
    'textile-painted-or-glazed': 'painted textile, painted cloth, painted banner, chintz',
    'paper-soluble-media': 'handwritten, felt tip, handgeschrieben',
    'paper-coated': 'glossy, coated paper, art print, hochglanz',
    'paper-framed': 'framed, pastel, gerahmt, gerahmtes',
    'book-leather-or-vellum': 'leather bound, leather binding, leather book, ledereinband, ledergebunden',
    parchment: 'parchment, vellum, pergament',
    'photo-albumen': 'albumen, carte de visite, cabinet card',
    'photo-collodion-print': 'collodion print',
    'photo-carbon-or-woodburytype': 'carbon print, woodburytype',
    'photo-collodion-or-tintype': 'tintype, ferrotype, ambrotype, collodion',
    'photo-daguerreotype': 'daguerreotype, daguerreotypie',
    'photo-glass-plate-gelatin': 'glass plate, glass negative, glasplatte, glasnegativ',
    'photo-lantern-slide-or-autochrome': 'lantern slide, autochrome, glasdia',
    'photo-inkjet-or-digital-print': 'inkjet, ink jet, digital print',
    'film-nitrate-deteriorated': 'nitrate, nitrate film, nitrat',
    'photo-stuck-together': 'stuck photo, stuck print, photo block, stuck together, verklebt, verklebte',
    'film-safety-deteriorated': 'vinegar, buckled film, essiggeruch',
    'tape-metal-particle': 'minidv, mini dv, metal tape',
    'tape-acetate-reel': 'acetate reel, acetate tape',
    'wood-painted-or-gilded': 'gilded, gilt, painted wood, icon, vergoldet, vergoldete, ikone',
    'furniture-veneered-or-inlaid': 'veneer, veneered, inlaid, marquetry, furniert, intarsien',
    'bone-or-ivory': 'ivory, bone, elfenbein, knochen',
    'horn-baleen-or-shell': 'horn, baleen, mother of pearl, tortoiseshell, perlmutt, schildpatt',
    'metal-iron': 'iron, steel, eisen, stahl',
  },
});

const SIZE_WORDS: WordTable<StandardItemKind> = wordTable<StandardItemKind>({
  plain: {
    'crib-quilt': 'crib, cot, baby quilt, cot quilt, cradle, kinderdecke, babydecke',
    throw: 'throw, blanket, lap quilt, single, tablecloth, rug, decke, tischdecke, teppich',
    'double-quilt': 'double, full, double bed, doppelbett',
    'queen-quilt': 'queen, king, large quilt',
    garment: 'shirt, dress, coat, jacket, clothes, hemd, kleid, mantel, jacke, kleidung',
    'a4-sheet': 'a4, sheet, page, letter, document, letter size, blatt, brief, seite',
    'print-10x15': 'print, photo, photograph, postcard, 10x15, 10 x 15, 4x6, 4 x 6, foto, postkarte, abzug',
    book: 'book, album, buch, bucher',
  },
  strong: {},
});

const SIGNIFICANCE_WORDS: WordTable<Significance> = wordTable<Significance>({
  plain: {
    everyday: 'everyday, ordinary, normal, low, none, alltag, alltaglich',
    valued: 'valued, liked, important, medium, wichtig, mittel',
    treasured: 'treasured, treasure, heirloom, precious, high, very important, erbstuck, kostbar, sehr wichtig, hoch',
    irreplaceable: 'irreplaceable, unique, only one, unersetzlich, einmalig',
  },
  strong: {},
});

/** River and lake water after a flood is black water: Cleanup of flood water, US CDC, and the trade's categories (guidance, care). */
const WATER_WORDS: WordTable<WaterKind> = wordTable<WaterKind>({
  plain: {
    clean: 'clean, tap water, leitungswasser, sauber',
    grey: 'grey, gray, washing machine, dishwasher, grau',
    black: 'black, river, flood, floodwater, flood water, lake, storm water, sewage, toilet, fluss, hochwasser, abwasser, schmutzwasser, schwarz',
    salt: 'salt, sea, seawater, sea water, salt water, salzwasser, meerwasser',
    unknown: 'unknown, not known, unbekannt',
  },
  strong: {},
});

/** What a size is taken for when the file does not say: one thing of that class as it most often comes. Our own calibration. */
const USUAL_SIZE: Readonly<Partial<Record<MaterialClass, StandardItemKind>>> = {
  'textile-quilt-padded': 'double-quilt', 'textile-flat-large': 'throw', 'textile-painted-or-glazed': 'throw', 'textile-very-degraded': 'throw', 'textile-archaeological': 'throw',
  'paper-uncoated': 'a4-sheet', 'paper-coated': 'a4-sheet', 'paper-soluble-media': 'a4-sheet', parchment: 'a4-sheet',
  'album-or-scrapbook': 'book', 'book-bound': 'book', 'book-leather-or-vellum': 'book',
  'photo-silver-gelatin': 'print-10x15', 'photo-colour-print': 'print-10x15', 'photo-albumen': 'print-10x15', 'photo-collodion-or-tintype': 'print-10x15',
  'photo-daguerreotype': 'print-10x15', 'photo-glass-plate-gelatin': 'print-10x15', 'photo-inkjet-or-digital-print': 'print-10x15',
  'photo-gelatin-deteriorated': 'print-10x15', 'photo-collodion-print': 'print-10x15', 'photo-carbon-or-woodburytype': 'print-10x15', 'photo-lantern-slide-or-autochrome': 'print-10x15', 'photo-unknown-process': 'print-10x15',
  'film-transparency': 'print-10x15', 'film-safety-deteriorated': 'print-10x15', 'film-roll': 'book', herbarium: 'a4-sheet', 'painting-canvas': 'throw',
  'tape-ferric': 'book', 'tape-metal-particle': 'book', 'tape-acetate-reel': 'book', 'floppy-disc': 'print-10x15', 'disc-vinyl-or-shellac': 'a4-sheet', 'disc-optical': 'print-10x15', 'drive-or-memory-card': 'print-10x15',
  'device-with-battery': 'print-10x15', 'bone-or-ivory': 'print-10x15', 'horn-baleen-or-shell': 'print-10x15', 'mineral-or-fossil': 'book',
  'film-negative': 'print-10x15', 'film-nitrate-deteriorated': 'print-10x15', 'photo-stuck-together': 'print-10x15',
};

/** The usual size of one thing of a class; a garment's for everything without a better guess. */
export function usualSize(materialClass: MaterialClass): StandardItemKind {
  return USUAL_SIZE[materialClass] ?? 'garment';
}

/** A word as one of ours: `exact` when it is our own name, `word` when it came from the table, null when it says nothing clear. */
export interface Understood<T> {
  value: T;
  how: 'exact' | 'word';
}

/** A reader of cells for one vocabulary: our own names first, then the words of the table. */
function reader<T extends string>(names: readonly T[], words: WordTable<T>): (cell: string) => Understood<T> | null {
  const exact = new Map(names.map((name) => [foldWords(name), name]));
  return (cell) => {
    const folded = foldWords(cell);
    const name = exact.get(folded);
    if (name !== undefined) return { value: name, how: 'exact' };
    const value = bestWord(folded, words);
    return value === null ? null : { value, how: 'word' };
  };
}

/** Material class of a cell; null when no word fits, or words of two classes fit equally well. */
export const understandMaterial = reader(MATERIAL_CLASSES, MATERIAL_WORDS);
/** Size class of a cell. */
export const understandSize = reader(STANDARD_ITEM_KINDS, SIZE_WORDS);
/** Significance of a cell. */
export const understandSignificance = reader(SIGNIFICANCES, SIGNIFICANCE_WORDS);
/** Kind of water of a cell. */
export const understandWater = reader(WATER_KINDS, WATER_WORDS);

const YES = new Set(['y', 'yes', 'ja', 'j', 'si', 'oui', 'tak', 'da', 'true', 't', 'x', '1', 'ok', 'agreed', '\u2713', '\u2714', '\u2611']);
const NO = new Set(['n', 'no', 'nein', 'non', 'nie', 'ne', 'false', 'f', '0', 'refused', '\u2717', '\u2718']);

/** Yes, no, or null when a cell says neither clearly; a consent is never guessed. */
export function understandYesNo(cell: string): boolean | null {
  const word = cell.trim().toLowerCase().normalize('NFKD').replace(/[\p{M}.!]/gu, '');
  if (YES.has(word)) return true;
  return NO.has(word) ? false : null;
}

/** The languages that letters to a household are written in (the contract of households). */
const LANGUAGES: Readonly<Record<string, string>> = {
  en: 'en', eng: 'en', english: 'en', englisch: 'en', ingles: 'en',
  es: 'es', spa: 'es', spanish: 'es', spanisch: 'es', espanol: 'es', castellano: 'es',
};

/** A language that we write to households in, from its tag (with or without a region) or its name; null for any other. */
export function understandLanguage(cell: string): string | null {
  const folded = foldWords(cell);
  return LANGUAGES[folded] ?? (/^[a-z]{2} [a-z]{2}$/.test(folded) ? (LANGUAGES[folded.slice(0, 2)] ?? null) : null);
}

const NOTHING = new Set(['-', '--', '\u2013', '\u2014', '?', '??', '/', './.', 'n/a', 'na', 'k.a.', 'unknown', 'unbekannt', 'not known']);

/** True for what people write into a cell when they mean "nothing" or "not known". */
export function meansNothing(cell: string): boolean {
  return cell === '' || NOTHING.has(cell.toLowerCase());
}
