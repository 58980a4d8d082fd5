import { notFound } from '#contracts';
import type { UseCaseCall } from '../call.js';
import type { AfterReading, ClimatePlace, ClimateReadingRecord, ReadingFilter, SensorRecord } from '../ports/climate-records-store.js';
import type { WeatherFilter, WeatherRecord } from '../ports/weather-store.js';
import type { WeighingRecord } from '../ports/weighing-store.js';
import type { Stores } from '../ports/work.js';

/** Sensors of an incident in the order of their codes. */
export async function listSensors(stores: Stores, _call: UseCaseCall, input: { incidentId: string; filter: { place?: ClimatePlace; state?: SensorRecord['state'] }; limit: number; after: string | null }): Promise<SensorRecord[]> {
  await visibleIncident(stores, input.incidentId);
  return stores.climateRecords.sensorPage(input.incidentId, input.filter, input.limit, input.after);
}

/** Readings of an incident, the latest measured first. */
export async function listReadings(stores: Stores, _call: UseCaseCall, input: { incidentId: string; filter: ReadingFilter; limit: number; after: AfterReading | null }): Promise<ClimateReadingRecord[]> {
  await visibleIncident(stores, input.incidentId);
  return stores.climateRecords.page(input.incidentId, input.filter, input.limit, input.after);
}

/** Weighings of an item, the latest first. */
export async function listWeighings(stores: Stores, _call: UseCaseCall, input: { itemId: string; limit: number; afterMs: number | null }): Promise<WeighingRecord[]> {
  if (!(await stores.items.find(input.itemId))) throw notFound('item');
  return stores.weighings.page(input.itemId, input.limit, input.afterMs);
}

/** Weather of a site by the hour it holds for; of forecasts by one source only the newest issue. */
export async function listWeather(stores: Stores, _call: UseCaseCall, input: { incidentId: string; siteId: string; filter: WeatherFilter; limit: number; after: { validAtMs: number; id: string } | null }): Promise<WeatherRecord[]> {
  await visibleIncident(stores, input.incidentId);
  const site = await stores.places.site(input.siteId);
  if (!site || site.incidentId !== input.incidentId) throw notFound('site');
  return stores.weather.page(input.siteId, input.filter, input.limit, input.after);
}

async function visibleIncident(stores: Stores, incidentId: string): Promise<void> {
  if (!(await stores.places.incident(incidentId))) throw notFound('incident');
}
