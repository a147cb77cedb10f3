// Bundles code that runs in a browser: one classic script without imports, made small.
import { readFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { build as bundle } from "esbuild";

/** Modules made while building, by name: `import text from "gramwright:NAME"` gives the text. */
const madeTexts = (texts) => ({
  name: "made-texts",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^gramwright:/ }, ({ path }) => ({
      path: path.slice("gramwright:".length),
      namespace: "made",
    }));
    onLoad({ filter: /.*/, namespace: "made" }, ({ path }) => {
      if (!Object.hasOwn(texts, path)) return { errors: [{ text: `there is no made text "${path}"` }] };
      return { contents: texts[path], loader: "text" };
    });
  },
});

/**
 * Parts of the drawing library that no chart of ours asks for: maps, trees, forces, regions, word clouds, statistics
 * of its own, reading of files, dates on axes, picking with the pointer. A chart that came to need one would not be drawn, and its test says so.
 */
const undrawn = new Set([
  ...["vega-geo", "vega-force", "vega-hierarchy", "vega-label", "vega-regression", "vega-voronoi", "vega-wordcloud"],
  ...["vega-crossfilter", "vega-projection", "d3-geo", "d3-ease", "topojson-client", "d3-dsv"],
  ...["d3-time-format", "d3-timer", "vega-selections", "vega-event-selector"],
]);

/**
 * Of its transforms, those of statistics and of shapes of tables that no chart of ours asks for; what draws on a canvas
 * or in a page, as charts are texts of SVG; and marks that no chart has.
 */
const unasked = new RegExp(
  `vega-(?:${[
    "transforms/src/(?:CountPattern|Cross|Density|DotBin|Flatten|Fold|Generate|Impute|JoinAggregate|KDE|Load|Lookup|Pivot|Quantile|Sample|Sequence|TimeUnit|Window)",
    "encode/src/(?:LinkPath|Pie)",
    "scenegraph/src/(?:CanvasRenderer|HybridHandler|HybridRenderer|SVGHandler|SVGRenderer|marks/(?:image|shape|trail))",
  ].join("|")})\\.js$`,
);

/** Of others the part that charts ask for: lines run straight or in steps, and nothing is pointed at while it is drawn. */
const asFarAsAsked = {
  curves: `import { curveLinear, curveStep } from "d3-shape";
    export default (type) => (type === "step" ? curveStep : type === "linear" ? curveLinear : null);`,
  CanvasHandler: 'export { default } from "./Handler.js";',
};

export const withoutUndrawn = {
  name: "without-undrawn",
  setup({ onResolve, onLoad, resolve, initialOptions }) {
    onResolve({ filter: /^(?:vega|d3|topojson)-/ }, ({ path }) =>
      undrawn.has(path) ? { path, namespace: "undrawn" } : undefined,
    );
    // vega-lite brings an older copy of what vega brings: one is enough
    onResolve({ filter: /^vega-expression$/ }, ({ path, kind, pluginData }) =>
      pluginData === undefined
        ? resolve(path, { kind, resolveDir: initialOptions.absWorkingDir, pluginData: { isOurs: true } })
        : undefined,
    );
    // what is left out of these stands apart in their sources only: transforms, and palettes, as every chart names its colours
    onResolve({ filter: /^vega-(?:encode|scale|scenegraph|transforms)$/ }, ({ path }) => ({
      path: `${initialOptions.absWorkingDir}node_modules/${path}/index.js`,
    }));
    onLoad({ filter: unasked }, () => ({
      contents: "export default undefined; export const setHybridRendererOptions = undefined;",
    }));
    onLoad({ filter: /vega-scenegraph\/src\/(?:path\/curves|CanvasHandler)\.js$/ }, ({ path }) => ({
      contents: asFarAsAsked[basename(path, ".js")],
      resolveDir: dirname(path),
    }));
    // curves that nothing asks for stay in for what is set on them outside any function
    onLoad({ filter: /d3-shape\.mjs$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8")
        .replace(/^\(?(?!Linear\b|Step\b)\w+\.prototype = [\s\S]*?\n\};?\n/gm, "")
        .replace(/^(var \w+ = )(?=\(function custom)/gm, "$1/* @__PURE__ */ "),
    }));
    onResolve({ filter: /\/palettes\.js$/ }, () => ({ path: "palettes", namespace: "unpainted" }));
    onLoad({ filter: /.*/, namespace: "unpainted" }, () => ({
      contents: "export const continuous = {}, discrete = {};",
    }));
    onLoad({ filter: /.*/, namespace: "undrawn" }, () => ({ contents: "module.exports = {};" }));
  },
};

/** What every bundle that runs in a browser is made with. */
export const forBrowser = (root) => ({
  absWorkingDir: root,
  bundle: true,
  write: false,
  platform: "browser",
  target: "es2022",
  minify: true,
  charset: "utf8",
  legalComments: "none",
  logLevel: "warning",
  plugins: [withoutUndrawn],
});

/** What stands for names that are known when building from the sources. */
export const defined = (version) => ({
  "process.env.NODE_ENV": '"production"',
  GRAMWRIGHT_VERSION: JSON.stringify(version),
});

/**
 * Bundles one entry point for the browser. Nothing in it needs eval, and it can stand inside a script element: no
 * `</script` and no `<!--` is left in it.
 * @returns the script's text and the files that went into it
 */
export async function bundleForBrowser({ root, entryPoint, version, texts = {} }) {
  const { outputFiles, metafile } = await bundle({
    ...forBrowser(root),
    define: defined(version),
    entryPoints: [entryPoint],
    format: "iife",
    metafile: true,
    plugins: [withoutUndrawn, madeTexts(texts)],
  });
  const text = outputFiles[0].text.trim().replaceAll("<!--", "\\x3c!--");
  if (/<\/script/i.test(text)) throw new Error(`${entryPoint}: the bundle would end its own script element`);
  return { text, inputs: Object.keys(metafile.inputs) };
}
