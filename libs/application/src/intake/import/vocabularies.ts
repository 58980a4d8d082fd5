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
    'textile-garment-3d': 'shirt, dress, coat, jacket, trousers, skirt, suit, uniform, costume, hat, shoe, gown, wedding dress, christening gown, blouse, glove, vest, hemd, hemden, kleid, kleider, mantel, jacke, hose, rock, anzug, taufkleid, brautkleid, hut, schuh, schuhe, bluse, tracht',
    'textile-everyday': 'laundry, everyday clothes, everyday clothing, towel, bedding, underwear, sock, jeans, t shirt, wasche, alltagskleidung, handtuch, handtucher, bettwasche, socken',
    'textile-stuffed': 'stuffed toy, soft toy, plush toy, stuffed animal, teddy, teddy bear, pillow, cushion, teddybar, stofftier, pluschtier, kissen',
    'textile-wool': 'sweater, jumper, cardigan, pullover, strickjacke',
    'paper-soluble-media': 'letter, manuscript, watercolour, watercolor, ink drawing, postcard, recipe card, brief, briefe, handschrift, aquarell, postkarte',
    'paper-uncoated': 'document, paper, newspaper, certificate, drawing, sheet music, urkunde, urkunden, dokument, dokumente, papier, papiere, zeitung, zeichnung, noten',
    'paper-coated': 'magazine, brochure, catalogue, catalog, zeitschrift, prospekt, katalog',
    'paper-oversize': 'map, poster, blueprint, landkarte, plakat, bauplan',
    'album-or-scrapbook': 'album, photo album, scrapbook, fotoalbum, fotoalben, poesiealbum',
    'book-bound': 'book, bible, diary, notebook, atlas, ledger, buch, bucher, bibel, tagebuch, tagebucher',
    'photo-colour-print': 'photo, photograph, print, snapshot, colour print, color print, colour photo, color photo, foto, fotografie, farbfoto, farbfotos, abzug, abzuge',
    'photo-silver-gelatin': 'black and white photo, black and white print, black and white photograph, b w photo, schwarzweissfoto, schwarzweissfotos',
    'film-negative': 'negative, slide, film, dia, dias, negativ',
  },
  strong: {
    'textile-silk': 'silk, seide, seiden',
    'textile-wool': 'wool, woollen, woolen, wolle, wolldecke',
    'textile-composite': 'beaded, sequin, beadwork, perlen, pailletten',
    'textile-painted-or-glazed': 'painted silk, painted textile, painted cloth, painted banner, chintz',
    'paper-soluble-media': 'handwritten, felt tip, handgeschrieben',
    'paper-coated': 'glossy, coated paper, art print, hochglanz',
    'paper-framed': 'framed, pastel, gerahmt, gerahmtes',
    'book-leather-or-vellum': 'leather bound, leather binding, leather book, ledereinband, ledergebunden',
    parchment: 'parchment, vellum, pergament',
    'photo-albumen': 'albumen, carte de visite, cabinet card',
    'photo-collodion-or-tintype': 'tintype, ferrotype, ambrotype, collodion',
    'photo-daguerreotype': 'daguerreotype, daguerreotypie',
    'photo-glass-plate-gelatin': 'glass plate, glass negative, lantern slide, glasplatte, glasnegativ',
    'photo-inkjet-or-digital-print': 'inkjet, ink jet, digital print',
    'film-nitrate-deteriorated': 'nitrate, nitrate film, nitrat',
    'photo-stuck-together': 'stuck photo, stuck print, photo block, stuck together, verklebt, verklebte',
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
  'textile-quilt-padded': 'double-quilt', 'textile-flat-large': 'throw', 'textile-painted-or-glazed': 'throw', 'textile-very-degraded': 'throw',
  'paper-uncoated': 'a4-sheet', 'paper-coated': 'a4-sheet', 'paper-soluble-media': 'a4-sheet', parchment: 'a4-sheet',
  'album-or-scrapbook': 'book', 'book-bound': 'book', 'book-leather-or-vellum': 'book',
  'photo-silver-gelatin': 'print-10x15', 'photo-colour-print': 'print-10x15', 'photo-albumen': 'print-10x15', 'photo-collodion-or-tintype': 'print-10x15',
  'photo-daguerreotype': 'print-10x15', 'photo-glass-plate-gelatin': 'print-10x15', 'photo-inkjet-or-digital-print': 'print-10x15',
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
