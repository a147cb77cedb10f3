import { type NamedPlaces, placeLabel } from "./named-places.ts";

/** An upright axis of names, one bar or mark beside each; field "place". */
export const namesBeside = (places: NamedPlaces, gap = 0.3) => ({
  field: "place",
  type: "nominal" as const,
  scale: { domain: places.keys, paddingInner: gap },
  axis: { title: null, labelExpr: placeLabel, ticks: false, domain: false, labelPadding: 6 },
});

/**
 * An axis of numbers that takes in its data, not necessarily 0. Without a domain or an inset it ends on round numbers.
 * @param inset pixels kept free at both ends; @param line draws the axis itself in place of a grid
 * @param whole ticks at whole numbers only
 */
export const measured = (
  field: string,
  title: string | string[] | null,
  {
    domain,
    inset = 0,
    line = false,
    whole = false,
    nice = domain === undefined && inset === 0,
  }: { domain?: [number, number]; inset?: number; line?: boolean; whole?: boolean; nice?: boolean } = {},
) => ({
  field,
  type: "quantitative" as const,
  scale: {
    zero: false,
    nice,
    padding: inset,
    ...(domain === undefined ? {} : { domain }),
  },
  axis: { title, ...(line ? { grid: false, domain: true } : {}), ...(whole ? { tickMinStep: 1 } : {}) },
});
