import workerScript from "gramwright:worker";
import type { WorkNews, WorkOrder } from "../browser/messages.ts";
import { trustedWorkerAddress } from "./trusted-texts.ts";

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
  const worker = new Worker(trustedWorkerAddress(workerScript));
  let isStopped = false;
  const tellUnlessStopped = (news: WorkNews) => {
    if (!isStopped) tell(news);
  };
  worker.addEventListener("message", ({ data }: MessageEvent<WorkNews>) => tellUnlessStopped(data));
  worker.addEventListener("error", (event) => {
    event.preventDefault();
    tellUnlessStopped({ kind: "trouble", text: event.message || "the worker could not be started" });
  });
  worker.postMessage(order);
  return {
    stop() {
      isStopped = true;
      worker.terminate();
    },
  };
}
