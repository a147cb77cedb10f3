/** The part of selenium-webdriver that is used; the package brings no types. */
declare module "selenium-webdriver" {
  export class Capabilities {
    setBrowserName(name: string): this;
    set(key: string, value: unknown): this;
  }
  export interface Session {
    executeScript(script: string): Promise<unknown>;
    get(address: string): Promise<void>;
    quit(): Promise<void>;
  }
  export class Builder {
    usingServer(address: string): this;
    withCapabilities(wanted: Capabilities): this;
    build(): Promise<Session>;
  }
}
