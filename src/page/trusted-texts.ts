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

/** What this page trusts: the address made of its own worker's script, and documents of its own frame. */
const trusted = (() => {
  let workerAddress = "";
  const rules: TextRules = {
    createScriptURL(url) {
      if (url !== workerAddress) throw new TypeError("createScriptURL: only the page's own worker may be started");
      return url;
    },
    createHTML: (text) => text,
  };
  const policy = window.trustedTypes?.createPolicy("gramwright", rules) ?? rules;
  return {
    workerAddress(script: string): string {
      if (workerAddress === "") workerAddress = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
      return policy.createScriptURL(workerAddress);
    },
    document: (html: string): string => policy.createHTML(html),
  };
})();

/** The one address a worker may be started from, for the bundled script. */
export const trustedWorkerAddress = (script: string): string => trusted.workerAddress(script);

/**
 * A report as the document of a frame. Its links to its own places are spelled out: in a frame without an address of its
 * own they would lead to the page around it. Cells cannot be taken for such a link, as quotation marks in them are escaped.
 */
export function trustedFrameDocument(html: string): string {
  // scripts stand at the end and are known by their hashes: they stay as they are
  const end = html.indexOf("<script");
  const markup = end < 0 ? html : html.slice(0, end);
  return trusted.document(markup.replaceAll('href="#', 'href="about:srcdoc#') + html.slice(markup.length));
}
