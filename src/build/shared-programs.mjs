// Builds the program of live reports and the worker of the drop page around one core: what both need stands once.
import { createHash } from "node:crypto";
import { posix } from "node:path";
import { constants, crc32, deflateRawSync } from "node:zlib";
import { build as bundle } from "esbuild";
import { base91Of } from "../live/base91.mjs";
import { defined, forBrowser } from "./bundle.mjs";

const entryPoints = { live: "src/live/live-program.ts", worker: "src/page/worker/worker.ts" };
const pieceOf = (entry) => `pieces/${entry}.js`;

/** Both programs in pieces that import each other; a piece that both reach belongs to the core. */
async function splitPieces({ root, version }) {
  const { outputFiles, metafile } = await bundle({
    ...forBrowser(root),
    define: defined(version),
    entryPoints,
    outdir: `${root}pieces`,
    format: "esm",
    splitting: true,
    metafile: true,
  });
  const texts = new Map(outputFiles.map(({ path, text }) => [`pieces/${posix.basename(path)}`, text]));
  const importsOf = (piece) =>
    metafile.outputs[piece].imports.filter(({ external }) => !external).map(({ path }) => path);
  const reach = (piece, found = new Set()) => {
    for (const path of importsOf(piece)) {
      if (found.has(path)) continue;
      found.add(path);
      reach(path, found);
    }
    return found;
  };
  const reached = Object.keys(entryPoints).map((entry) => reach(pieceOf(entry)));
  const core = new Set([...reached[0]].filter((piece) => reached[1].has(piece)));
  const outside = [...texts.keys()].filter((piece) => !core.has(piece));
  // what only the core itself asks for stays inside, and is not evaluated before it is asked for
  const asked = [...core].filter((piece) => outside.some((other) => importsOf(other).includes(piece))).sort();
  const inputsOf = (entry) =>
    [pieceOf(entry), ...reach(pieceOf(entry))].flatMap((piece) => Object.keys(metafile.outputs[piece].inputs));
  return { texts, core, asked, inputsOf };
}

/** Finds pieces among the texts; `shared` says what stands for a piece that is not taken in. */
const piecesPlugin = (texts, shared) => ({
  name: "pieces",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /.*/ }, ({ path }) => ({ path: `pieces/${posix.basename(path)}`, namespace: "piece" }));
    onLoad({ filter: /.*/, namespace: "piece" }, ({ path }) => {
      const contents = shared(path) ?? texts.get(path);
      return contents === undefined ? { errors: [{ text: `there is no piece "${path}"` }] } : { contents };
    });
  },
});

/** Pieces bundled again into one classic script. */
async function scriptOf({ root, texts, contents, globalName, shared = () => undefined }) {
  const { outputFiles } = await bundle({
    ...forBrowser(root),
    stdin: { contents, resolveDir: root },
    format: "iife",
    plugins: [piecesPlugin(texts, shared)],
    ...(globalName === undefined ? {} : { globalName }),
  });
  return outputFiles[0].text.trim();
}

// RFC 1952: deflate, no flags, no time, best compression, made on Unix
const gzipHead = Buffer.from([0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 2, 3]);
// RFC 1951: a stored block of no bytes, not the last one
const emptyBlock = Buffer.from([0, 0, 0, 0xff, 0xff]);

// blocks of the length at which this program packs smallest
const best = { level: 9, memLevel: 7 };
/** How far back RFC 1951 lets a text repeat what stood before it. */
const windowBytes = 32_768;

/** The first part of gzip files that begin alike: it ends on a byte, and its length lets its text be put end to end. */
function packStart(text) {
  const packed = deflateRawSync(text, { ...best, finishFlush: constants.Z_FULL_FLUSH });
  const parts = [gzipHead, packed];
  let { length } = Buffer.concat(parts);
  for (; length % 13 !== 0; length += emptyBlock.length) parts.push(emptyBlock);
  return base91Of(Buffer.concat(parts));
}

/** The rest of a gzip file whose first part was packed with `packStart`; it may repeat the end of that. */
function packEnd(start, text) {
  const foot = Buffer.alloc(8);
  foot.writeUInt32LE(crc32(text, crc32(start)), 0);
  foot.writeUInt32LE(Buffer.byteLength(start) + Buffer.byteLength(text), 4);
  const dictionary = Buffer.from(start).subarray(-windowBytes);
  return base91Of(Buffer.concat([deflateRawSync(text, { ...best, dictionary }), foot]));
}

/**
 * Builds both programs. Same sources, same bytes.
 * @returns `core`, `live` and `worker` as text of base 91: core and one of the others put end to end is that program's script in
 *   gzip; the hash of the live one as a content policy writes it; and the files that went into each
 */
export async function buildPrograms({ root, version }) {
  const { texts, core, asked, inputsOf } = await splitPieces({ root, version });
  const nameOf = (piece) => `gramwrightCore.c${asked.indexOf(piece)}`;
  const coreScript = await scriptOf({
    ...{ root, texts, globalName: "gramwrightCore" },
    contents: asked.map((piece, index) => `export * as c${index} from "./${piece}";`).join("\n"),
  });
  const partOf = (entry) =>
    scriptOf({
      ...{ root, texts, contents: `import "./${pieceOf(entry)}";` },
      shared: (piece) => (core.has(piece) ? `module.exports = ${nameOf(piece)};` : undefined),
    });
  const start = `(()=>{${coreScript}\n`;
  const [live, worker] = [`${await partOf("live")}})();`, `${await partOf("worker")}})();`];
  return {
    core: packStart(start),
    live: packEnd(start, live),
    worker: packEnd(start, worker),
    liveHash: `sha256-${createHash("sha256").update(start).update(live).digest("base64")}`,
    inputs: { live: inputsOf("live"), worker: inputsOf("worker") },
  };
}
