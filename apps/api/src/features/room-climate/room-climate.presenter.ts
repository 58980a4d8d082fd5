import type { z } from 'zod';
import type { AcceptanceParts, getItemClimate, ItemClimateView, ItemStanding, KindAcceptance, RoomForecast, RoomStanding, RoomStateView, RoomView } from '#application';
import { render, say, type Language, type Message } from '#care';
import type { AcceptanceLimit } from '#climate';
import type { ItemClimateBody, RoomAcceptanceBody, RoomForecastBody, RoomItemBody, RoomStateBody } from '#contracts';
import { formatTagCode } from '#custody';
import { iso, isoOrNull } from '../../presenters/time.js';
import { WEIGHING_WORDS } from './weighing-words.js';

const RECKONED = say('Reckoned from readings, from what hangs there and from the labels of the machines; the speed of drying is trusted to a third, or as weighings have fitted it. Weigh, touch and look before you rely on it. The mould clock is a rule of practice, not a forecast of when mould starts.');

const AIR_WORDS: Readonly<Record<RoomStanding['state'], Message>> = {
  'below-cap': say('The air is below the cap of the room.'),
  'near-cap': say('The air is close to the cap: hang no more than the room can take.'),
  'over-cap': say('The air is above the cap: everything in the room is at risk. Hang nothing more, and bring the humidity down.'),
  'mould-possible': say('Air this damp lets mould grow even on things that are dry. Hang nothing more, and bring the humidity down.'),
};

/** As fine as anybody can read it: the model is not better than that. */
const round = (value: number, digits = 2): number => Number(value.toFixed(digits));
const roundOrNull = (value: number | null, digits = 2): number | null => (value === null ? null : round(value, digits));

const named = ({ id, code, name }: Pick<RoomView, 'id' | 'code' | 'name'>) => ({ id, code, name });

export function presentRoomState({ room, openAlarms }: RoomStateView, language: Language): z.output<typeof RoomStateBody> {
  return { room: named(room), incidentId: room.incidentId, siteId: room.siteId, humidityCapPct: room.humidityCapPct, openAlarms, climate: room.standing && climateOf(room.standing, language), standing: render(RECKONED, language) };
}

function climateOf(standing: RoomStanding, language: Language): NonNullable<z.output<typeof RoomStateBody>['climate']> {
  const { asOfMs, readingAtMs, nextDryMs, allDryLatestMs, overCapMs, peakAtMs, peakRelativeHumidityPct, waterKg, humidityCapPct: _cap, speeds: _speeds, ...rest } = standing;
  return {
    ...rest, relativeHumidityPct: round(rest.relativeHumidityPct), evaporationKgPerH: round(rest.evaporationKgPerH, 3), outdoorAirKgPerH: round(rest.outdoorAirKgPerH, 3), dehumidifiersKgPerH: round(rest.dehumidifiersKgPerH, 3),
    heatToHoldKw: roundOrNull(rest.heatToHoldKw), asOf: iso(asOfMs), readAt: iso(readingAtMs), statement: render(AIR_WORDS[standing.state], language), waterLeftKg: round(waterKg, 3), nextDryAt: isoOrNull(nextDryMs), allDryBy: isoOrNull(allDryLatestMs),
    peak: { relativeHumidityPct: round(peakRelativeHumidityPct), at: iso(peakAtMs) }, overCapAt: isoOrNull(overCapMs),
  };
}

export function presentForecast({ room, forecast }: { room: RoomView; forecast: RoomForecast | null }, language: Language): z.output<typeof RoomForecastBody> {
  return {
    room: named(room), humidityCapPct: room.humidityCapPct, from: forecast && iso(forecast.fromMs), to: forecast && iso(forecast.toMs),
    peak: forecast && { relativeHumidityPct: round(forecast.peak.relativeHumidityPct), at: iso(forecast.peak.atMs) }, overCapAt: isoOrNull(forecast?.overCapMs ?? null),
    points: (forecast?.points ?? []).map(({ atMs, airTempC, relativeHumidityPct, evaporationKgPerH, outdoorAirKgPerH, dehumidifiersKgPerH, waterKg }) => ({
      at: iso(atMs), airTempC, relativeHumidityPct: round(relativeHumidityPct), evaporationKgPerH: round(evaporationKgPerH, 3), outdoorAirKgPerH: round(outdoorAirKgPerH, 3), dehumidifiersKgPerH: round(dehumidifiersKgPerH, 3), waterLeftKg: round(waterKg, 3),
    })),
    standing: render(RECKONED, language),
  };
}

export function presentItemClimate({ itemId, tagCode, climate }: Awaited<ReturnType<typeof getItemClimate>>, language: Language): z.output<typeof ItemClimateBody> {
  return {
    itemId, tag: formatTagCode(tagCode), room: climate && { id: climate.roomId, code: climate.roomCode, name: climate.roomName }, standing: climate && standingOf(climate.standing, language), advice: render(RECKONED, language),
  };
}

export function presentRoomItem({ itemId, tagCode, standing }: ItemClimateView, language: Language): z.output<typeof RoomItemBody> {
  return { itemId, tag: formatTagCode(tagCode), standing: standingOf(standing, language) };
}

function standingOf(standing: ItemStanding, language: Language): z.output<typeof RoomItemBody>['standing'] {
  return {
    hungAt: iso(standing.hungAtMs), takenAt: isoOrNull(standing.takenAtMs), asOf: iso(standing.asOfMs), build: standing.build, isDry: standing.dry,
    dryEarliestAt: isoOrNull(standing.dryEarliestMs), dryExpectedAt: isoOrNull(standing.dryExpectedMs), dryLatestAt: isoOrNull(standing.dryLatestMs),
    water: {
      leftKg: round(standing.waterKg, 3), leftAtMostKg: round(Math.max(standing.waterKg, standing.slowWaterKg), 3), leftAtLeastKg: round(standing.fastWaterKg ?? standing.waterKg, 3),
      moistureX: round(standing.moistureX, 4), moistureAtMostX: round(Math.max(standing.moistureX, standing.slowMoistureX), 4), moistureAtLeastX: round(standing.fastMoistureX ?? standing.moistureX, 4), targetX: round(standing.targetX, 4),
      basis: standing.moistureBasis, knownAt: iso(standing.knownAtMs),
    },
    speed: standing.takenAtMs === null ? { basis: standing.speedBasis ?? 'general', weighings: standing.speedWeighings ?? 0 } : null,
    weighing: weighingOf(standing.weighed ?? null, language),
    clock: clockOf(standing.clock), inWords: inWords(standing).map((message) => render(message, language)),
  };
}

function weighingOf(weighed: NonNullable<ItemStanding['weighed']> | null, language: Language): z.output<typeof RoomItemBody>['standing']['weighing'] {
  return weighed && { decision: weighed.decision, code: weighed.code, weighAgainAt: isoOrNull(weighed.weighAgainAtMs), targetMassKg: roundOrNull(weighed.targetMassKg, 3), inWords: render(WEIGHING_WORDS[weighed.code], language) };
}

function clockOf(clock: ItemStanding['clock']): z.output<typeof RoomItemBody>['standing']['clock'] {
  return clock && {
    state: clock.state, dose: round(clock.dose, 4), paused: clock.paused, hoursLeft: roundOrNull(clock.hoursLeft, 1), hoursLeftShortest: roundOrNull(clock.hoursLeftBand?.shortest ?? null, 1), hoursLeftLongest: roundOrNull(clock.hoursLeftBand?.longest ?? null, 1),
    assumedPct: Math.round(clock.assumedShare * 100), measuredHours: round(clock.measuredH), assumedHours: round(clock.assumedH), amberAt: isoOrNull(clock.amberMs), redAt: isoOrNull(clock.redMs),
  };
}

const MOSTLY_ASSUMED = 0.25;
const HOUR_MS = 3_600_000;

function inWords(standing: ItemStanding): Message[] {
  const { clock } = standing;
  const words = [dryWords(standing)];
  if (standing.moistureBasis !== 'weighed') words.push(say('How wet it was when it was hung is the usual water of such things: weigh it to know.'));
  if (standing.takenAtMs === null && standing.speedBasis === 'fitted') words.push(say('The speed of drying was fitted from {weighings} weighings of such things in this room.', { weighings: standing.speedWeighings ?? 0 }));
  if (clock?.state === 'red') words.push(say('The time that the rule of practice allows is used up: look for mould before it is handled, with a respirator, gloves and eye protection.'));
  else if (clock !== null && clock.redMs !== null && !(standing.dryLatestMs !== null && standing.dryLatestMs < clock.redMs)) words.push(say('By the rule of practice its time may run out before it is dry. Give it a drier place or a fan that does not blow straight at it, or freeze it if that is allowed.'));
  if (clock !== null && clock.assumedShare > MOSTLY_ASSUMED) words.push(say('{percent} % of its clock is assumed because nobody measured; such time counts on the cautious side.', { percent: Math.round(clock.assumedShare * 100) }));
  return words;
}

function dryWords({ dry, takenAtMs, asOfMs, build, dryEarliestMs, dryLatestMs }: ItemStanding): Message {
  if (takenAtMs !== null) return say('It hangs there no longer.');
  if (dry) return say('By reckoning it is dry. Weigh and touch it before it is taken down.');
  const inHours = (ms: number): number => Math.max(0, Math.round((ms - asOfMs) / HOUR_MS));
  if (dryEarliestMs === null) return say('In this air it will not be dry within three days. Lower the humidity, or freeze it if that is allowed.');
  if (dryLatestMs !== null && dryLatestMs <= asOfMs) return say('It should have been dry before, and takes water up from the damp air again: bring the humidity down.');
  if (dryEarliestMs <= asOfMs && dryLatestMs !== null) return say('It may be dry already, and should be in {latest} h: weigh it.', { latest: inHours(dryLatestMs) });
  if (dryLatestMs === null) return say('It should be dry in {earliest} h at the earliest, perhaps not within three days.', { earliest: inHours(dryEarliestMs) });
  if (build === 'thin') return say('It should be dry in {earliest} to {latest} h.', { earliest: inHours(dryEarliestMs), latest: inHours(dryLatestMs) });
  return say('It should be dry in {earliest} to {latest} h; it dries from inside, so only weighing tells when.', { earliest: inHours(dryEarliestMs), latest: inHours(dryLatestMs) });
}

const LIMIT_WORDS: Readonly<Record<AcceptanceLimit, Message>> = {
  'humidity-cap': say('One more would lift the room above its humidity cap: more dehumidification helps, more racks do not.'),
  'mould-clock': say('One more would let a mould clock run out before all is dry.'),
  time: say('One more would not be dry in the time asked for.'),
  'rack-area': say('There is no rack area for one more.'),
  'items-max': say('It was not looked further.'),
};
const OUTSIDE = say('The air of the room is outside what the drying model answers for (1 to 45 °C).');

function speedOf({ factor, low, high, weighings }: KindAcceptance['speed']) {
  return { basis: weighings > 0 ? ('fitted' as const) : ('general' as const), factor: round(factor, 3), low: round(low, 3), high: round(high, 3), weighings };
}

export function presentAcceptance({ room, state, free }: AcceptanceParts, kinds: readonly KindAcceptance[], withinHours: number, language: Language): z.output<typeof RoomAcceptanceBody> {
  return {
    room: named(room), asOf: state && iso(state.atMs), withinHours, freeAreaM2: Math.max(0, free.areaDm2 - free.takenDm2) / 100,
    kinds: kinds.map(({ kind, acceptance, atLeast, speed }) => ({
      kind, items: acceptance?.items ?? 0, itemsAtLeast: atLeast, waterKg: round(acceptance?.waterKg ?? 0), speed: speedOf(speed), limitedBy: acceptance?.limitedBy ?? ('air-outside-model' as const),
      statement: render(acceptance === null ? OUTSIDE : LIMIT_WORDS[acceptance.limitedBy], language),
    })),
    standing: render(RECKONED, language),
  };
}
