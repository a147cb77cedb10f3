import { legendColumns } from "./chart-theme.ts";
import { type NamedPlaces, namedPlaces, placeLabel } from "./named-places.ts";

/** more series than this cannot be told apart by eye */
export const mostSeries = 7;

/** How series are told apart: named marks, or not at all when there are too many. */
export interface SeriesMarks {
  /** absent when points are all drawn alike */
  places?: NamedPlaces;
  notes: string[];
}

/** The series of a chart's points, told apart where there are 2 to 7. */
export function seriesMarks(series: ReadonlyArray<string | undefined>, label = "Series"): SeriesMarks {
  const names = [...new Set(series.filter((name) => name !== undefined))];
  if (names.length < 2) return { notes: [] };
  if (names.length > mostSeries)
    return {
      notes: [`${label}: ${names.length} of them, too many to tell apart by mark; all points are drawn alike.`],
    };
  const places = namedPlaces(
    series.map((name) => name ?? "not stated"),
    { letters: 22, lines: 1 },
  );
  return places.keys.length > mostSeries ? { notes: [] } : { places, notes: [] };
}

/** A legend of named places. */
export const placesLegend = (places: NamedPlaces, title: string | null, taken = 0) => ({
  title,
  labelExpr: placeLabel,
  columns: legendColumns(places.widest, places.keys.length, taken),
});
