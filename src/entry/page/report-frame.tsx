import { useEffect, useRef, useState } from "preact/hooks";
import { trustedFrameDocument } from "./trusted-texts.ts";
import { progress, report } from "./workbench.ts";

/**
 * The report as it would be saved, in a frame that may run nothing and reach nothing: neither scripts, nor forms, nor the
 * page around it.
 */
export function ReportFrame() {
  const [isLarge, setLarge] = useState(false);
  const frame = useRef<HTMLIFrameElement>(null);
  const written = report.value;
  useEffect(() => {
    let isStale = false;
    written?.text().then((html) => {
      if (!isStale && frame.current !== null) frame.current.srcdoc = trustedFrameDocument(html);
    });
    return () => {
      isStale = true;
    };
  }, [written]);
  if (written === undefined) {
    return progress.value.state === "working" ? <p class="quiet">The full report follows the answers.</p> : null;
  }
  return (
    <section aria-labelledby="frame-title" class={isLarge ? "block report-block large" : "block report-block"}>
      <div class="block-head">
        <h2 id="frame-title">Full report</h2>
        <button type="button" class="small" aria-pressed={isLarge} onClick={() => setLarge(!isLarge)}>
          {isLarge ? "Back to the sheets" : "Fill the window"}
        </button>
      </div>
      <iframe ref={frame} class="report-frame" title="Full report" sandbox="" />
    </section>
  );
}
