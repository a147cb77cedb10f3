import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { type AddressInfo, connect, createServer } from "node:net";

/** A browser by its command; undefined where the machine has none. */
const found = (names: ReadonlyArray<string>): string | undefined =>
  names
    .flatMap((name) => (process.env.PATH ?? "").split(":").map((folder) => `${folder}/${name}`))
    .find((path) => existsSync(path));

export const firefoxPath = process.env.FIREFOX_PATH ?? found(["firefox-esr", "firefox"]);
const webkitDriver = found(["WebKitWebDriver"]);
const miniBrowser = [
  "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
  "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.0/MiniBrowser",
  "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser",
  "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.0/MiniBrowser",
].find((path) => existsSync(path));
const screen = found(["Xvfb"]);

/** A page in a browser, as far as these tests need it. */
export interface PageElsewhere {
  /** runs a function's text in the page and gives back what it returns, as JSON */
  evaluate<Result>(script: string): Promise<Result>;
  open(address: string): Promise<void>;
  /** what the page complained of; undefined where the browser cannot say */
  complaints: string[] | undefined;
  close(): Promise<void>;
}

/** Firefox by WebDriver BiDi. */
export async function openFirefox(): Promise<PageElsewhere> {
  const { launch } = await import("puppeteer-core");
  const browser = await launch({ browser: "firefox", executablePath: firefoxPath!, headless: true });
  const page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 900 });
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error") complaints.push(message.text());
  });
  return {
    complaints,
    evaluate: (script) => page.evaluate(script) as Promise<never>,
    open: async (address) => void (await page.goto(address)),
    close: () => browser.close(),
  };
}

/** Whether this machine can drive WebKit: Debian's webkit2gtk-driver and Xvfb. */
export const hasWebKit = webkitDriver !== undefined && miniBrowser !== undefined && screen !== undefined;

const wait = (milliseconds: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** A port nobody listens on. */
const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer().once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });

/** A screen of its own, under a number that nobody else has. */
async function openScreen(): Promise<{ name: string; end(): void }> {
  const x = spawn(screen!, ["-displayfd", "1", "-screen", "0", "1280x900x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "pipe", "ignore"],
  });
  const number = await new Promise<string>((resolve, reject) => {
    let said = "";
    x.stdout.on("data", (text) => {
      said += text;
      if (said.includes("\n")) resolve(said.trim());
    });
    x.once("error", reject).once("exit", (code) => reject(new Error(`Xvfb ended with ${code}`)));
  });
  return { name: `:${number}`, end: () => void x.kill() };
}

/** Waits until something listens on a port. */
async function listening(port: number): Promise<void> {
  const reached = (): Promise<boolean> =>
    new Promise((resolve) => {
      const socket = connect(port, "127.0.0.1");
      socket.once("connect", () => resolve(true)).once("error", () => resolve(false));
      socket.once("connect", () => socket.destroy());
    });
  for (let tries = 0; !(await reached()); tries++) {
    if (tries > 600) throw new Error(`nothing listens on port ${port}`);
    await wait(100);
  }
}

/** WebKit's own small browser on a screen of its own. */
export async function openWebKit(): Promise<PageElsewhere> {
  const { name, end: endScreen } = await openScreen();
  const port = await freePort();
  const driver = spawn(webkitDriver!, [`--port=${port}`], {
    stdio: "ignore",
    env: { ...process.env, DISPLAY: name, WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1", NO_AT_BRIDGE: "1" },
  });
  const end = (): void => {
    driver.kill();
    endScreen();
  };
  try {
    await listening(port);
    const { Builder, Capabilities } = await import("selenium-webdriver");
    const wanted = new Capabilities()
      .setBrowserName("MiniBrowser")
      .set("webkitgtk:browserOptions", { binary: miniBrowser!, args: ["--automation"] });
    const session = await new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities(wanted).build();
    return {
      complaints: undefined,
      evaluate: (script) => session.executeScript(`return (${script})`) as Promise<never>,
      open: (address) => session.get(address),
      close: async () => {
        await session.quit();
        end();
      },
    };
  } catch (error) {
    end();
    throw error;
  }
}
