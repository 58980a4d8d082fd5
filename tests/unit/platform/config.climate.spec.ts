import { expect, test } from '@jest/globals';
import { CLIMATE_GATHER_MS, CLIMATE_TICK_MS } from '#application';
import { ConfigError, loadConfig } from '#platform';

test('the periods in which air is reckoned are those of the use cases unless the environment sets them', () => {
  expect(loadConfig({})).toMatchObject({ climateTickMs: CLIMATE_TICK_MS, climateGatherMs: CLIMATE_GATHER_MS });
  expect(loadConfig({ WRACKLINE_CLIMATE_TICK_MS: '30000', WRACKLINE_CLIMATE_GATHER_MS: '250' })).toMatchObject({ climateTickMs: 30_000, climateGatherMs: 250 });
});

test.each([
  ['WRACKLINE_CLIMATE_TICK_MS', '999'], ['WRACKLINE_CLIMATE_TICK_MS', '3600001'], ['WRACKLINE_CLIMATE_TICK_MS', 'often'],
  ['WRACKLINE_CLIMATE_GATHER_MS', '0'], ['WRACKLINE_CLIMATE_GATHER_MS', '120001'],
])('%s=%s stops the program with a sentence that names it', (name, value) => {
  expect(() => loadConfig({ [name]: value })).toThrow(ConfigError);
  expect(() => loadConfig({ [name]: value })).toThrow(name);
});
