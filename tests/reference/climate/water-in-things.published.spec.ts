import { describe, expect, test } from '@jest/globals';
import { booksWaterKg, dryTargetX, MATERIAL_TABLE, poreCeilingX, standardItem, waterActivity, wetMassKg, type Material, type StandardItemKind } from '#climate';

const KG_PER_LB = 0.45359237;

describe('soaked libraries (US National Archives, preservation guidance on library materials)', () => {
  test('P6: 20 000 pre-1840 books of 4 lb take up 64 000 lb', () => {
    expect(booksWaterKg({ count: 20000, dryMassKgEach: 4 * KG_PER_LB, period: 'pre-1840' }) / KG_PER_LB).toBeCloseTo(64000, 6);
  });

  test('P7: 20 000 modern books of 4 lb take up 48 000 lb', () => {
    expect(booksWaterKg({ count: 20000, dryMassKgEach: 4 * KG_PER_LB, period: 'modern' }) / KG_PER_LB).toBeCloseTo(48000, 6);
  });
});

describe('regain at 65 % RH and 20 C (Bioresources and Bioprocessing 2020, 10.1186/s40643-020-00339-1, table 10)', () => {
  test.each<[Material, number, number]>([['cotton', 0.07, 0.08], ['wool', 0.14, 0.18], ['silk', 0.1, 0.1], ['linen', 0.07, 0.07], ['hemp', 0.08, 0.08], ['jute', 0.12, 0.12]])(
    '%s lies in the published range and says it is published',
    (material, low, high) => {
      const { value, mark } = MATERIAL_TABLE[material].regainAt65X;
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
      expect(mark).toBe('published');
    },
  );

  test('commercial regains (ASTM D1909-13, same table) are kept apart from the drying target', () => {
    const trade = { cotton: 0.085, linen: 0.12, hemp: 0.12, jute: 0.1375, silk: 0.11, wool: 0.136 };
    for (const [material, value] of Object.entries(trade)) expect(MATERIAL_TABLE[material as Material].commercialRegainX?.value).toBe(value);
    expect(dryTargetX('wool')).toBeCloseTo(0.16, 12);
  });
});

describe('computed for the physics guidance', () => {
  test('the cotton target 0.085 has water activity 0.736', () => {
    expect(dryTargetX('cotton')).toBeCloseTo(0.085, 12);
    expect(waterActivity('cotton', 0.085)).toBeCloseTo(0.736, 3);
  });

  test('pore ceilings: towel 0.5 kg/m2 at 4 mm 7.34, wool carpet 2.5 kg/m2 at 12 mm 4.04', () => {
    expect(poreCeilingX(0.004, 0.5, 'cotton')).toBeCloseTo(7.34, 2);
    expect(poreCeilingX(0.012, 2.5, 'wool')).toBeCloseTo(4.04, 2);
  });

  test('the measured spin 13.5 to 22.0 lb (informal) is X 0.63', () => {
    expect(wetMassKg(13.5 * KG_PER_LB, 0.63)).toBeCloseTo(22 * KG_PER_LB, 2);
  });
});

describe('standard sizes derived in the care guidance', () => {
  test.each<[StandardItemKind, number]>([['print-10x15', 2], ['a4-sheet', 8], ['garment', 120], ['throw', 360], ['double-quilt', 550], ['queen-quilt', 750]])('%s needs %d dm2 of rack', (kind, areaDm2) => {
    expect(standardItem(kind).areaDm2).toBe(areaDm2);
  });

  test.each<[StandardItemKind, number, number]>([['crib-quilt', 1.2, 0.5], ['throw', 3, 1.4], ['double-quilt', 4.6, 2.1], ['queen-quilt', 6.2, 2.8]])('%s: %d m2 and %d kg dry, which is 450 g/m2 to the rounding', (kind, areaM2, massKg) => {
    const quilt = standardItem(kind);
    expect([quilt.faceAreaM2, quilt.dryMassKg]).toEqual([areaM2, massKg]);
    expect(Math.abs(0.45 * areaM2 - massKg)).toBeLessThan(0.051);
  });
});
