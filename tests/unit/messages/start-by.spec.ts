/** The moment to start, as it is said to who reads it now. */
import { expect, test } from '@jest/globals';
import * as fc from 'fast-check';
import { render, startByInWords, type Language } from '#care';

const NOW = Date.parse('2026-05-09T07:00:00Z');
const MINUTE = 60_000;
const said = (minutes: number, language: Language = 'en') => render(startByInWords(NOW + minutes * MINUTE, NOW), language);

test.each<[number, string, string]>([
  [45, 'Start within 45 minutes.', 'Empiece en menos de 45 minutos.'],
  [5 * 60, 'Start within 5 hours.', 'Empiece en menos de 5 horas.'],
  [96 * 60, 'Start within 4 days.', 'Empiece en menos de 4 días.'],
  [-1, 'The moment to start passed 1 minute ago: begin now.', 'El momento de empezar pasó hace 1 minuto: empiece ahora.'],
  [-180, 'The moment to start passed 3 hours ago: begin now.', 'El momento de empezar pasó hace 3 horas: empiece ahora.'],
])('%d minutes from now: %s', (minutes, english, spanish) => {
  expect([said(minutes), said(minutes, 'es')]).toEqual([english, spanish]);
});

test('a moment that has come or passed is never said as one that lies ahead, nor one ahead as late', () => {
  fc.assert(
    fc.property(fc.integer({ min: -10 * 24 * 60, max: 10 * 24 * 60 }), (minutes) => {
      expect(said(minutes).includes('begin now')).toBe(minutes <= 0);
      expect(said(minutes, 'es').includes('empiece ahora')).toBe(minutes <= 0);
    }),
  );
});
