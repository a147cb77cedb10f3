// The program a live report carries. It runs twice: in the page, and in workers made from its own text.
import { startLivePage } from "./live-page.tsx";
import { startLiveWorker } from "./worker/live-worker.ts";

if (typeof document === "undefined") startLiveWorker();
else {
  const text = document.currentScript?.textContent ?? "";
  const address = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  startLivePage(window.liveBook ?? "", () => new Worker(window.liveScripts?.createScriptURL(address) ?? address));
}
