// Unpacks the program of a live report and starts it. The content policy knows both by their hashes and runs nothing else.
import { unpackText } from "./packed-text.ts";

interface ScriptPolicy {
  createScript(text: string): string;
  createScriptURL(url: string): string;
}

interface PolicyMaker {
  createPolicy(name: string, rules: ScriptPolicy): ScriptPolicy;
}

declare global {
  interface Window {
    /** how this page may make scripts, where the browser guards that; absent elsewhere */
    liveScripts?: ScriptPolicy;
    /** the book as text, for `readBookData` */
    liveBook?: string;
  }
}

const unpacked = (id: string): Promise<string> => unpackText(document.getElementById(id)?.textContent ?? "");

async function start(): Promise<void> {
  window.liveBook = await unpacked("live-book");
  const text = await unpacked("live-program");
  const maker = (window as unknown as { trustedTypes?: PolicyMaker }).trustedTypes;
  const rules: ScriptPolicy = {
    createScript(script) {
      if (script !== text) throw new TypeError("createScript: only this report's own program may run");
      return script;
    },
    createScriptURL(url) {
      if (!url.startsWith("blob:")) throw new TypeError("createScriptURL: only this report's own worker may run");
      return url;
    },
  };
  const policy = maker?.createPolicy("gramwright-live", rules) ?? rules;
  window.liveScripts = policy;
  const script = document.createElement("script");
  script.textContent = policy.createScript(text);
  document.head.append(script);
}

start().catch((error: unknown) => {
  const note = document.createElement("p");
  note.className = "note";
  note.textContent = `This browser cannot make the sheets live (${String(error)}); the report reads the same without.`;
  document.querySelector("header")?.append(note);
});
