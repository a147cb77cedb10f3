// What drawing takes from its library: named, so that a bundle leaves out the rest of it.
export { parse, resetSVGDefIds, textMetrics, View } from "vega";
export { expressionInterpreter } from "vega-interpreter";
export { compile } from "vega-lite";
