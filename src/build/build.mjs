// Bundles the command line and the page with esbuild and gathers the licences of what is bundled.
import { chmodSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { build as bundle } from "esbuild";
import { billOfMaterials } from "./bill-of-materials.mjs";
import { buildLive } from "./build-live.mjs";
import { buildPage } from "./build-page.mjs";
import { withoutUndrawn } from "./bundle.mjs";
import { buildInto } from "./move-in.mjs";
import { buildPrograms } from "./shared-programs.mjs";

const root = fileURLToPath(new URL("../../", import.meta.url));
const { version } = JSON.parse(readFileSync(`${root}package.json`, "utf8"));

/** Bundles entry points for Node into `outdir`, in parts that load when they are first needed. */
export function buildForNode({ entryPoints, outdir }) {
  return bundle({
    absWorkingDir: root,
    entryPoints,
    outdir,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    splitting: true,
    chunkNames: "part-[hash]",
    minifySyntax: true,
    charset: "utf8",
    legalComments: "none",
    logLevel: "warning",
    metafile: true,
    plugins: [withoutUndrawn],
    // for Node it looks for a package that draws on a canvas, which no chart needs
    alias: { "vega-canvas": `${root}node_modules/vega-canvas/build/vega-canvas.browser.js` },
    define: { "process.env.NODE_ENV": '"production"', GRAMWRIGHT_VERSION: JSON.stringify(version) },
    // packages in the older module form call require for Node's own modules
    banner: {
      js: 'import { createRequire as gramwrightRequire } from "node:module"; const require = gramwrightRequire(import.meta.url);',
    },
  });
}

/** Every package the bundle took in, with what its package.json says, by name. */
function bundledPackages(inputs) {
  const names = new Set();
  for (const input of inputs) {
    const match = /node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(input);
    if (match) names.add(match[1]);
  }
  return [...names].sort().map((name) => {
    const folder = `${root}node_modules/${name}`;
    return { name, folder, about: JSON.parse(readFileSync(`${folder}/package.json`, "utf8")) };
  });
}

/** The texts of the licences of packages, one after the other. */
function thirdPartyNotices(packages) {
  const notices = packages.map(({ name, folder, about }) => {
    const file = readdirSync(folder).find((entry) => /^licen[cs]e/i.test(entry));
    const text = file ? readFileSync(`${folder}/${file}`, "utf8").trim() : `Licence: ${about.license}`;
    return `${name} ${about.version}\n\n${text}\n`;
  });
  return notices.join(`\n${"-".repeat(72)}\n\n`);
}

/**
 * Writes dist/: the command line, the page, what makes reports live, the third-party notices and the bill of materials. A build that fails leaves
 * the one before as it was.
 * @param isAlone nothing of an earlier build may stay: for a package
 */
export function build({ isAlone = false } = {}) {
  const make = async (fresh) => {
    const entryPoints = {
      gramwright: "src/cli/gramwright.ts",
      "drawing-worker": "src/cli/drawing/drawing-worker.ts",
    };
    const { metafile } = await buildForNode({ entryPoints, outdir: fresh });
    const programs = await buildPrograms({ root, version });
    const live = await buildLive({ root, version, programs });
    const page = await buildPage({ root, version, programs, live: live.parts });
    writeFileSync(`${fresh}/page.html`, page.html);
    writeFileSync(`${fresh}/live.json`, JSON.stringify(live.parts));
    const inputs = [...Object.keys(metafile.inputs), ...page.inputs, ...live.inputs];
    const packages = bundledPackages(inputs);
    writeFileSync(`${fresh}/THIRD-PARTY-NOTICES.txt`, thirdPartyNotices(packages));
    writeFileSync(`${fresh}/bill-of-materials.cdx.json`, billOfMaterials({ version, packages }));
    chmodSync(`${fresh}/gramwright.js`, 0o755);
  };
  return buildInto(`${root}dist`, make, { entry: "gramwright.js", isAlone });
}
