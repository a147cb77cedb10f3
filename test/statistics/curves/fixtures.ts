import { readFileSync } from "node:fs";

/** One parameter as the reference files state it. */
export interface ReferenceParameter {
  estimate: number;
  se: number;
  t: number;
  p: number;
  waldCI95: [number, number];
}

/** One fitted model as the reference files state it. */
export interface ReferenceFit {
  coefficients: Record<string, ReferenceParameter>;
  rss: number;
  sigma: number;
  dfResidual: number;
  logLik: number;
  AIC: number;
  AICc: number;
  BIC: number;
  kCountsSigma: number;
  optimum?: string;
  plateau?: number;
  vertexX?: number;
  vertexY?: number;
  breakInsideData?: boolean;
  optimumAtSearchEdge?: boolean;
  asPolynomial?: { a: number; b: number; q: number };
}

export interface NonlinearReference {
  source: string;
  originallyPublished: string;
  data: Record<string, (number | string)[]>;
  expected: Record<string, ReferenceFit>;
  tolerance: { coefRelative: number; seRelative: number; rssRelative: number; aicAbsolute: number };
}

/** Reads a reference file by name. */
export function reference<T>(name: string): T {
  return JSON.parse(readFileSync(new URL(`../../reference/${name}.json`, import.meta.url), "utf8")) as T;
}
