/** What the server tells its page. */
export interface PageConfig {
  version: string;
  rigFile: string;
  rigText: string;
  /** What to begin with. */
  source:
    | { kind: 'simulator'; seed: number; speed: number }
    | { kind: 'port'; path: string }
    | { kind: 'recording'; file: string };
}
