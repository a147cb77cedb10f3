// Builds the page that sheets are dropped on: one HTML file with its style, its script, its worker and a sample book.
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { build as bundle } from "esbuild";
import { bundleForBrowser } from "./bundle.mjs";

const hashOf = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

/** What a module of the sources exports. */
async function exportsOf(root, entryPoint) {
  const { outputFiles } = await bundle({
    absWorkingDir: root,
    entryPoints: [entryPoint],
    bundle: true,
    write: false,
    format: "esm",
    platform: "node",
    logLevel: "warning",
  });
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].text).toString("base64")}`);
}

/** The sheets of a sample book as text. */
function sampleBook(folder) {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".csv"))
    .sort()
    .map((path) => {
      const bytes = readFileSync(`${folder}/${path}`);
      const text = bytes.toString("utf8");
      if (!Buffer.from(text).equals(bytes))
        throw new Error(`${path}: not UTF-8, so it cannot stand in the page as text`);
      return { path: path.replaceAll("\\", "/"), text };
    });
}

/**
 * The page's rules: only its own script and styles, a worker made from them, pictures held in data; no network. A frame
 * keeps them too, so they also know the scripts of the live report that is shown in one.
 */
const contentPolicy = (script, live, styles) =>
  [
    "default-src 'none'",
    `script-src ${hashOf(script)} ${hashOf(live.script)} '${live.programHash}'`,
    `style-src ${styles.map(hashOf).join(" ")}`,
    "worker-src blob:",
    "img-src data: blob:",
    "connect-src 'none'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types gramwright gramwright-live",
  ].join("; ");

/**
 * Builds the page. Same sources, same bytes.
 * @param programs what `buildPrograms` gives; @param live the parts of a live report
 * @returns the HTML and the files that went into its scripts
 */
export async function buildPage({ root, version, programs, live }) {
  const sample = JSON.stringify(sampleBook(`${root}data-samples/as-typed-book`));
  const page = await bundleForBrowser({
    root,
    version,
    entryPoint: "src/page/page.tsx",
    texts: {
      ...{ "packed-core": programs.core, "packed-live": programs.live, "packed-worker": programs.worker },
      ...{ "live-loader": live.script, "live-hash": live.programHash, "sample-book": sample },
    },
  });
  // the page wears the report's style, and the report keeps its own when it is shown inside the page
  const { stylesheet } = await exportsOf(root, "src/report/style/stylesheet.ts");
  const { liveStyle } = await exportsOf(root, "src/live/live-style.ts");
  const { dropPageStyle } = await exportsOf(root, "src/page/drop-page-style.ts");
  const html = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${contentPolicy(page.text, live, [stylesheet, dropPageStyle, liveStyle])}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="generator" content="Gramwright ${version}">
<meta name="referrer" content="no-referrer">
<title>Gramwright: drop your sheets</title>
<style>${stylesheet}</style>
<style>${dropPageStyle}</style>
</head>
<body class="drop-page">
<div id="page"><noscript><p>This page works on your sheets with a script of its own. Allow scripts for this file, or use
the command line: gramwright report BOOK.</p></noscript></div>
<script>${page.text}</script>
</body>
</html>
`;
  return { html, inputs: [...programs.inputs.worker, ...page.inputs] };
}
