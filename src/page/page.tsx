import { render } from "preact";
import { DropPage } from "./drop-page.tsx";

render(<DropPage />, document.getElementById("page")!);
