import { dayNumber } from "../../src/measures/day-number.ts";
import { nameKey } from "../../src/records/name-key.ts";
import type { TemperatureReading } from "../../src/records/sheet.ts";
import type { Tray } from "../../src/records/tray.ts";

/** The temperatures that count as right for a tray, °C, ends included. */
export interface TemperatureBand {
  low: number;
  high: number;
}

/** What a tray went through between two dates. */
export interface TemperatureExposure {
  /** hours covered by readings */
  hours: number;
  /** share of the stretch covered by readings, 0 to 1 */
  covered: number;
  /** hours inside the band */
  hoursInBand: number;
  meanCelsius: number;
  /** °C above the low end of the band, summed over days; cooler hours count as 0 */
  degreeDays: number;
  /** stretches outside the band */
  excursions: number;
}

const minutesPerDay = 1440;
/**
 * A reading holds until the next one, but no longer than this, in minutes: a logger that stopped says nothing. One read by hand
 * once or twice a day holds as long as its readings usually lie apart, a day at most.
 */
const holdOf = (usualGap: number): number => Math.max(6 * 60, Math.min(usualGap, minutesPerDay));

/** One chamber's readings in time order. */
interface Series {
  /** minutes since 1970-01-01T00:00, local */
  starts: Float64Array;
  /** minutes each reading holds */
  holds: Float64Array;
  celsius: Float64Array;
  /** sums over readings before each one: minutes, °C × minutes */
  minutes: Float64Array;
  warmth: Float64Array;
  /** by band: sums of minutes inside, °C × minutes above its low end, and stretches outside begun */
  bands: Map<string, { inside: Float64Array; above: Float64Array; begun: Float64Array }>;
}

/** Readings of every chamber, ready to be asked. */
export interface TemperatureIndex {
  series: ReadonlyMap<string, Series>;
  /** readings that could not be placed in time */
  unread: number;
}

/** Minutes since 1970 of "2026-03-04T13:30" (seconds are taken along); undefined for anything else. */
function minuteOf(at: string, days: Map<string, number>): number | undefined {
  const date = at.slice(0, 10);
  let day = days.get(date);
  if (day === undefined) {
    if (!/^\d{4}-\d{2}-\d{2}$/.test(date)) return undefined;
    try {
      day = dayNumber(date);
    } catch (error) {
      if (error instanceof RangeError) return undefined;
      throw error;
    }
    days.set(date, day);
  }
  const hour = at.length >= 16 ? Number(at.slice(11, 13)) : 0;
  const minute = at.length >= 16 ? Number(at.slice(14, 16)) : 0;
  const second = at.length >= 19 ? Number(at.slice(17, 19)) : 0;
  const total = day * minutesPerDay + hour * 60 + minute + second / 60;
  return Number.isFinite(total) ? total : undefined;
}

function runningSum(count: number, of: (index: number) => number): Float64Array {
  const sums = new Float64Array(count + 1);
  for (let index = 0; index < count; index++) sums[index + 1] = sums[index]! + of(index);
  return sums;
}

/**
 * Sorts a temperature log by chamber and time and sums it up, so that any stretch of any tray can be asked of it.
 * Time and memory go with the number of readings (times the logarithm where they are out of order).
 */
export function temperatureIndex(log: ReadonlyArray<TemperatureReading>): TemperatureIndex {
  const days = new Map<string, number>();
  const found = new Map<string, { starts: number[]; celsius: number[] }>();
  let unread = 0;
  for (const { at, celsius, chamber } of log) {
    const minute = minuteOf(at, days);
    if (minute === undefined || !Number.isFinite(celsius)) {
      unread++;
      continue;
    }
    const key = nameKey(chamber);
    const own = found.get(key) ?? { starts: [], celsius: [] };
    found.set(key, own);
    own.starts.push(minute);
    own.celsius.push(celsius);
  }
  const series = new Map<string, Series>();
  for (const [key, own] of found) {
    const count = own.starts.length;
    const sorted = own.starts.every((start, index) => index === 0 || own.starts[index - 1]! <= start);
    const order = sorted
      ? undefined
      : own.starts.map((_, index) => index).sort((a, b) => own.starts[a]! - own.starts[b]!);
    const starts = Float64Array.from({ length: count }, (_, index) => own.starts[order?.[index] ?? index]!);
    const celsius = Float64Array.from({ length: count }, (_, index) => own.celsius[order?.[index] ?? index]!);
    const gaps = Float64Array.from(
      { length: Math.max(0, count - 1) },
      (_, index) => starts[index + 1]! - starts[index]!,
    );
    // the last reading holds as long as readings usually lie apart
    const usual = gaps.length === 0 ? 0 : gaps.slice().sort()[(gaps.length - 1) >> 1]!;
    const holds = Float64Array.from({ length: count }, (_, index) => Math.min(holdOf(usual), gaps[index] ?? usual));
    series.set(key, {
      starts,
      holds,
      celsius,
      minutes: runningSum(count, (index) => holds[index]!),
      warmth: runningSum(count, (index) => holds[index]! * celsius[index]!),
      bands: new Map(),
    });
  }
  return { series, unread };
}

/** Readings that start before a minute. */
function before(starts: Float64Array, minute: number): number {
  let [low, high] = [0, starts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (starts[middle]! < minute) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Most bands kept for one chamber; each takes as much memory as its readings. */
const mostBands = 32;

function bandSums(series: Series, { low, high }: TemperatureBand) {
  const key = `${low} ${high}`;
  const kept = series.bands.get(key);
  if (kept !== undefined) return kept;
  const { celsius, holds } = series;
  const count = celsius.length;
  const isInside = (index: number) => celsius[index]! >= low && celsius[index]! <= high;
  const sums = {
    inside: runningSum(count, (index) => (isInside(index) ? holds[index]! : 0)),
    above: runningSum(count, (index) => holds[index]! * Math.max(0, celsius[index]! - low)),
    begun: runningSum(count, (index) => (!isInside(index) && (index === 0 || isInside(index - 1)) ? 1 : 0)),
  };
  if (series.bands.size >= mostBands) series.bands.clear();
  series.bands.set(key, sums);
  return sums;
}

/**
 * What a chamber went through from one date to another, both days included.
 * @param chamber as the tray has it; a log without chambers, or of one chamber alone, is used for trays without one
 * @param from, to ISO 8601 dates
 * @returns undefined where the log has no reading of that chamber then, or the dates run backwards
 * @throws RangeError if a date does not exist
 */
export function temperatureBetween(
  index: TemperatureIndex,
  chamber: string | undefined,
  from: string,
  to: string,
  band: TemperatureBand,
): TemperatureExposure | undefined {
  const only = index.series.size === 1 ? [...index.series.values()][0] : undefined;
  const series =
    index.series.get(nameKey(chamber)) ?? index.series.get("") ?? (chamber === undefined ? only : undefined);
  const [first, end] = [dayNumber(from) * minutesPerDay, (dayNumber(to) + 1) * minutesPerDay];
  if (series === undefined || end <= first) return undefined;
  const sums = bandSums(series, band);
  const { starts, holds, celsius } = series;
  /** sum up to a minute: whole readings before it, and what the last of them has held so far */
  const upTo = (running: Float64Array, rate: (reading: number) => number, minute: number): number => {
    const count = before(starts, minute);
    if (count === 0) return 0;
    const last = count - 1;
    return running[last]! + Math.min(holds[last]!, minute - starts[last]!) * rate(last);
  };
  const over = (running: Float64Array, rate: (reading: number) => number) =>
    upTo(running, rate, end) - upTo(running, rate, first);
  const isInside = (reading: number) => celsius[reading]! >= band.low && celsius[reading]! <= band.high;
  const minutes = over(series.minutes, () => 1);
  if (!(minutes > 0)) return undefined;
  const [startReading, endReading] = [before(starts, first), before(starts, end)];
  // a stretch that had begun before counts where it reaches in
  const reachesIn =
    startReading > 0 && !isInside(startReading - 1) && starts[startReading - 1]! + holds[startReading - 1]! > first;
  const startedOutside =
    startReading < endReading &&
    startReading > 0 &&
    !reachesIn &&
    !isInside(startReading) &&
    !isInside(startReading - 1);
  return {
    hours: minutes / 60,
    covered: Math.min(1, minutes / (end - first)),
    hoursInBand: over(sums.inside, (reading) => (isInside(reading) ? 1 : 0)) / 60,
    meanCelsius: over(series.warmth, (reading) => celsius[reading]!) / minutes,
    degreeDays: over(sums.above, (reading) => Math.max(0, celsius[reading]! - band.low)) / minutesPerDay,
    excursions: sums.begun[endReading]! - sums.begun[startReading]! + (reachesIn || startedOutside ? 1 : 0),
  };
}

/** °C either side of a tray's own set point that count as right. */
export const setPointTolerance = 1.5;

/** The band of a tray: its own set point with the tolerance, else the book's range. */
export function bandOf(tray: Tray, lowCelsius: number, highCelsius: number): TemperatureBand {
  return tray.fruitingCelsius === undefined
    ? { low: lowCelsius, high: highCelsius }
    : { low: tray.fruitingCelsius - setPointTolerance, high: tray.fruitingCelsius + setPointTolerance };
}

/**
 * What a tray went through while fruiting: from the day it was moved (else colonised) to its harvest.
 * @returns undefined where those dates, or readings, are missing
 */
export function temperatureOfTray(
  index: TemperatureIndex,
  tray: Tray,
  band: TemperatureBand,
): TemperatureExposure | undefined {
  const from = tray.fruitingOn ?? tray.colonisedOn;
  if (from === undefined || tray.harvestedOn === undefined) return undefined;
  return temperatureBetween(index, tray.chamber, from, tray.harvestedOn, band);
}
