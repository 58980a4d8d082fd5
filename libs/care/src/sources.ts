/** The publications the rule book rests on, and the four ways a rule may stand. */
import type { Source } from './types.js';

/** Publications by short name: title, publisher, year or section where known. */
export const PUBLICATIONS = {
  npsWetTextiles: 'Preservation Matters: Saving Wet Textiles After a Flood, US National Park Service',
  salvageTextiles: 'Salvage at a Glance V: Textiles (Conserve O Gram 21/8, 2003), NPS/NCPTT',
  salvageObjects: 'Salvage at a Glance III: Objects, NPS/NCPTT',
  mnhsTextiles: 'Textiles and Clothing (salvage guide), Minnesota Historical Society',
  aicTextiles: 'Stabilizing Wet Textiles and Clothing, American Institute for Conservation wiki',
  francisTextiles: 'K. Francis, Emergency Salvage of Textiles and Clothing, University of Iowa Flood Booklet',
  iowaChart: 'Salvage at a Glance chart, University of Iowa Flood Booklet',
  iowaDrying: 'Drying materials page, University of Iowa Flood Booklet',
  louisiana: 'Salvaging Some Common Materials, Louisiana GOHSEP',
  mnhsBooks: 'Salvage guide: books, Minnesota Historical Society, 2017',
  aicLeather: 'Skin and leather (wet salvage), American Institute for Conservation wiki',
  cci1314: 'CCI Notes 13/14, Canadian Conservation Institute',
  cci1315: 'CCI Notes 13/15, Canadian Conservation Institute',
  cci137: 'CCI Notes 13/7, Canadian Conservation Institute',
  nedccPhotographs: 'Preservation leaflet 3.7 (wet photographs), Northeast Document Conservation Center',
  aicPhotographs: 'Stabilizing Wet Photographic Materials, American Institute for Conservation wiki',
  nlmCoated: 'Emergency pages: coated paper, US National Library of Medicine',
  nlmPhotographs: 'Emergency pages: photographs, US National Library of Medicine',
  nlmLeather: 'Emergency pages: leather and vellum bindings, US National Library of Medicine',
  waters: 'P. Waters, Salvage of Water Damaged Library Materials, Library of Congress, 1993',
  unescoRamp: 'RAMP study R8707, UNESCO',
  amnhFreezing: 'Freezing collections to buy time, American Museum of Natural History',
  cerf: 'Emergency salvage for artwork, CERF+',
  texas: 'Emergency Salvage of Family Treasures, University of Texas iSchool',
  fema2017: 'How to save treasures, FEMA, 2017',
  fema2023: 'Mold (fact sheet), FEMA, 2023',
  hentf: 'FEMA/HENTF advice of 2019, as printed in the press',
  cdcFloodWater: 'Cleanup of flood water, US CDC',
  waDoh: 'Floods (public-health pages), Washington State Department of Health',
  epaMould: 'EPA 402-K-01-001, US EPA, 2008, ch. 3',
  epaMouldCh5: 'EPA 402-K-01-001, US EPA, 2008, ch. 5',
  ncceh: 'NCCEH mould review, 2010',
  oshaFlood: 'Flooded areas (worker safety), US OSHA',
  cfr1910134: '29 CFR 1910.134(c)(2), US OSHA',
  oshaHeat: 'OSHA Technical Manual III:4, 2017',
  ellis: 'S. Ellis, Journal of the American Institute for Conservation 39(1) art. 9 (University of Alberta flood)',
  tieu: 'G. Tieu on the National Czech & Slovak Museum flood, The Conservation Center',
  hendriks: 'Hendriks & Lesser 1983, as reported on the Conservation DistList 2002 and 2010',
  canISaveThis: 'Can I save this? (household flood guide)',
  gorges: 'Gorges, flood textile guide, 1999',
  ipi: 'Consumer guide to digital prints, Image Permanence Institute',
  aicTextileGroup: 'AIC Textile Specialty Group wiki: aqueous cleaning, spot tests',
  ukPocket: 'UK pocket salvage guide',
  leeCollege: 'Library disaster plan, Lee College',
  smithProtocol: 'Smith mould and pest protocol for collections',
  iso105a03: 'ISO 105-A03 (grey scale for staining), scope as published in GB 251',
  textileFreezing: "Inside the Conservator's Studio (conservator's blog), on freezing textiles",
  aicPaintings: 'Paintings (wet salvage), American Institute for Conservation wiki',
  cci105: 'CCI Notes 10/5 (paintings after water), Canadian Conservation Institute',
  mnhsWood: 'Emergency plan of 1993: wood, Minnesota Historical Society, in the University of Iowa Flood Booklet',
  mnhsInorganics: 'Emergency plan of 1993: inorganics, Minnesota Historical Society, in the University of Iowa Flood Booklet',
  mnhsPaintings: 'Emergency plan of 1993: paintings on canvas, Minnesota Historical Society, in the University of Iowa Flood Booklet',
  aicFurniture: 'Furniture and wood (wet salvage), American Institute for Conservation wiki',
  aicNaturalHistory: 'Stabilizing Wet Natural History Materials, American Institute for Conservation wiki',
  nlmTape: 'Emergency pages: audiovisual and videotape, US National Library of Medicine, 2014',
  iowaLibraries: 'University of Iowa Libraries, blog and press reports on the flood of 2008, 2008-2015',
  swMuseums: 'Salvage sheet, South West Museums',
  chemung: 'Flood advice for furniture, Chemung County Historical Society',
  ncPest: 'Pest notes, North Carolina museums, after AAM',
  nioshPpe: 'Hurricane response: personal protective equipment, NIOSH',
  ugaPlan: 'Libraries disaster plan, University of Georgia',
  npsPrimer33: 'Primer on Disaster Preparedness, prim33, US National Park Service',
} as const;

/** Short name of a publication in the source list. */
export type PublicationName = keyof typeof PUBLICATIONS;

/** A rule that a publication states. */
export function published(...names: [PublicationName, ...PublicationName[]]): Source {
  return { mark: 'published', cite: names.map((name) => PUBLICATIONS[name]).join('; ') };
}

/** A rule of the trade seen only in informal or secondary places, which `cite` names. */
export const practice = (cite: string): Source => ({ mark: 'common-practice', cite });

/** A rule that rests on memory alone and waits for someone to check it. */
export const fromMemory = (cite: string): Source => ({ mark: 'from-memory', cite: `From memory, not verified: ${cite}` });

/** A judgement of this project; a network may change it. */
export const own = (cite: string): Source => ({ mark: 'own-calibration', cite: `Our own calibration: ${cite}` });
