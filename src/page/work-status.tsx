import { progress, startWork, stopWork } from "./workbench.ts";

/** How far the work is, and the button that ends it. */
export function WorkStatus() {
  const now = progress.value;
  if (now.state === "empty" || now.state === "done") return null;
  if (now.state === "trouble") {
    return (
      <div class="work-status trouble" role="alert">
        <p>{now.text}</p>
      </div>
    );
  }
  if (now.state === "stopped") {
    return (
      <div class="work-status">
        <p>Stopped before it was finished. What is shown below may be older than the sheets.</p>
        <button type="button" onClick={startWork}>
          Start again
        </button>
      </div>
    );
  }
  return (
    <div class="work-status">
      <label class="work-text" for="work-share">
        {now.text}
      </label>
      <progress id="work-share" max={1} {...(now.share === undefined ? {} : { value: now.share })} />
      <button type="button" onClick={stopWork}>
        Cancel
      </button>
    </div>
  );
}
