interface TextRules {
  createScriptURL(url: string): string;
  createHTML(text: string): string;
}

declare global {
  interface Window {
    /** where the browser guards what is made from text; absent in others */
    trustedTypes?: { createPolicy(name: string, rules: TextRules): TextRules };
  }
}

let workerAddress = "";

const rules: TextRules = {
  createScriptURL(url) {
    if (url !== workerAddress) throw new TypeError("createScriptURL: only the page's own worker may be started");
    return url;
  },
  createHTML: (text) => text,
};

const policy = window.trustedTypes?.createPolicy("gramwright", rules) ?? rules;

/** The one address a worker may be started from, for the bundled script. */
export function trustedWorkerAddress(script: string): string {
  if (workerAddress === "") workerAddress = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  return policy.createScriptURL(workerAddress);
}

/**
 * A report as the document of a frame. Its links to its own places are spelled out: in a frame without an address of its
 * own they would lead to the page around it. Cells cannot be taken for such a link, as quotation marks in them are escaped.
 */
export function trustedFrameDocument(html: string): string {
  // scripts stand at the end and are known by their hashes: they stay as they are
  const end = html.indexOf("<script");
  const markup = end < 0 ? html : html.slice(0, end);
  return policy.createHTML(markup.replaceAll('href="#', 'href="about:srcdoc#') + html.slice(markup.length));
}
