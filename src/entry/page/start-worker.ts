import workerScript from "gramwright:worker";
import type { WorkNews, WorkOrder } from "../browser/messages.ts";

interface WorkerPolicy {
  createScriptURL(url: string): string;
}

declare global {
  interface Window {
    /** where the browser guards scripts made from text; absent in others */
    trustedTypes?: { createPolicy(name: string, rules: WorkerPolicy): WorkerPolicy };
  }
}

const address = URL.createObjectURL(new Blob([workerScript], { type: "text/javascript" }));
const rules: WorkerPolicy = {
  createScriptURL(url) {
    if (url !== address) throw new TypeError("createScriptURL: only the page's own worker may be started");
    return url;
  },
};
const policy = window.trustedTypes?.createPolicy("gramwright-worker", rules) ?? rules;

/** Work under way. */
export interface RunningWork {
  /** ends it at once; no more news comes */
  stop(): void;
}

/**
 * Gives an order to a worker of its own, made from the script this page carries.
 * @param tell called with every piece of news, trouble of the worker itself included
 */
export function startWorker(order: WorkOrder, tell: (news: WorkNews) => void): RunningWork {
  const worker = new Worker(policy.createScriptURL(address));
  worker.addEventListener("message", ({ data }: MessageEvent<WorkNews>) => tell(data));
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    tell({ kind: "trouble", text: event.message || "the worker could not be started" });
  });
  worker.postMessage(order);
  return {
    stop: () => worker.terminate(),
  };
}
