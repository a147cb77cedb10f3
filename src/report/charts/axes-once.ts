import type { TopLevelSpec } from "vega-lite";

interface Layer {
  encoding?: Record<string, { axis?: unknown }>;
}

/**
 * The same chart with every axis stated in one layer only: the drawing library works an axis out again for each layer that
 * states it, and then puts together what is the same.
 */
export function axesOnce(spec: TopLevelSpec): TopLevelSpec {
  if (!("layer" in spec)) return spec;
  const stated = new Map<string, string>();
  const layers = (spec.layer as Layer[]).map((layer) => {
    const encoding = Object.entries(layer.encoding ?? {}).map(([channel, own]) => {
      if (typeof own !== "object" || own.axis === undefined) return [channel, own];
      const axis = JSON.stringify(own.axis);
      if (stated.get(channel) === axis) {
        const { axis: _, ...rest } = own;
        return [channel, rest];
      }
      if (!stated.has(channel)) stated.set(channel, axis);
      return [channel, own];
    });
    return { ...layer, encoding: Object.fromEntries(encoding) };
  });
  return { ...spec, layer: layers } as TopLevelSpec;
}
