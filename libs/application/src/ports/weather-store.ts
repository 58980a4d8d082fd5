export const WEATHER_KINDS = ['observed', 'forecast'] as const;

/** Weather of a site: observed, or forecast for an hour. */
export interface WeatherRecord {
  id: string;
  incidentId: string;
  siteId: string;
  kind: (typeof WEATHER_KINDS)[number];
  validAtMs: number;
  /** When the forecast was made; null for what was observed. */
  issuedAtMs: number | null;
  airTempC: number;
  relativeHumidityPct: number;
  windMPerS: number | null;
  /** Which service or person says so. */
  source: string;
  recordedAtMs: number;
}

export interface WeatherFilter {
  kind?: WeatherRecord['kind'];
  /** From this valid time, to before that one. */
  fromMs?: number;
  toMs?: number;
}

export interface WeatherStore {
  /** Keeps everybody else from recording weather of the site until the transaction ends. */
  lockSite(siteId: string): Promise<void>;
  /** Kept records that one of these would repeat or contradict: same site, kind, source, valid time and issue. */
  known(records: readonly WeatherRecord[]): Promise<WeatherRecord[]>;
  insert(records: readonly WeatherRecord[]): Promise<void>;
  /**
   * Keyset page by valid time, oldest first. Of forecasts for one hour by one source only the newest issue; `after` is the last
   * row of the page before.
   */
  page(siteId: string, filter: WeatherFilter, limit: number, after: { validAtMs: number; id: string } | null): Promise<WeatherRecord[]>;
  /** Forecasts of the newest issue for each hour from a moment on, any source, oldest first. */
  forecast(siteId: string, fromMs: number, toMs: number): Promise<WeatherRecord[]>;
}
