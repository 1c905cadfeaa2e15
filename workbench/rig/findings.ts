import type { Place, Problem } from '../../sim/errors.ts';
import type { FingerName } from '../../sim/rig/rig.ts';
import { follow, isWritten, problemAt, valuePlace, type YamlPath, type YamlSource } from './yaml-source.ts';

/** Collects what the checks of a whole rig find, each finding once and at the line that decides the value. */
export class Findings {
  readonly errors: Problem[] = [];
  readonly warnings: Problem[] = [];
  private readonly known = new Set<string>();

  constructor(
    private readonly source: YamlSource,
    /** Paths that were unreadable: no second complaint about what depends on them. */
    private readonly cut: readonly YamlPath[],
  ) {}

  /** Whether a value at or above a path, or anything below it, could not be read. */
  isCut(path: YamlPath): boolean {
    return this.cut.some((gone) => {
      const shared = Math.min(gone.length, path.length);
      return gone.slice(0, shared).every((step, depth) => step === path[depth]);
    });
  }

  /** Whether any of a finger's values, own or shared, could not be read. */
  isFingerCut(name: FingerName, ...keys: YamlPath[]): boolean {
    return keys.some((key) => this.isCut(['fingers', name, ...key]) || this.isCut(['eachFinger', ...key]));
  }

  /** The place that decides a finger's value: its own line, else that of `eachFinger`, else the finger. */
  fingerPlace(name: FingerName, ...keys: YamlPath[]): Place {
    for (const key of keys) {
      for (const path of [
        ['fingers', name, ...key],
        ['eachFinger', ...key],
      ]) {
        if (isWritten(this.source, path)) return valuePlace(this.source, path);
      }
    }
    return valuePlace(this.source, ['fingers', name]);
  }

  place(path: YamlPath): Place {
    return valuePlace(this.source, path);
  }

  lineOf(path: YamlPath): number {
    return follow(this.source, path).node ? valuePlace(this.source, path).line : 0;
  }

  private add(list: Problem[], place: Place, expected: string, seen: string, next: string): void {
    const id = `${place.line}:${place.column} ${expected}`;
    if (this.known.has(id)) return;
    this.known.add(id);
    list.push(problemAt(place, seen, expected, next));
  }

  error(place: Place, seen: string, expected: string, next: string): void {
    this.add(this.errors, place, expected, seen, next);
  }

  warn(place: Place, seen: string, expected: string, next: string): void {
    this.add(this.warnings, place, expected, seen, next);
  }
}
