/** What the tests use of nlopt-js, which has no types of its own. */
declare module 'nlopt-js' {
  interface Optimize {
    setMaxObjective(objective: (x: readonly number[]) => number, tolerance: number): void;
    setLowerBounds(bounds: readonly number[]): void;
    setUpperBounds(bounds: readonly number[]): void;
    setMaxeval(evaluations: number): void;
    optimize(from: readonly number[]): unknown;
  }
  const nlopt: {
    readonly ready: Promise<void>;
    readonly Algorithm: Readonly<Record<string, unknown>>;
    readonly GC: { flush(): void };
    readonly Optimize: new (algorithm: unknown, size: number) => Optimize;
  };
  // biome-ignore lint/style/noDefaultExport: the library exports so.
  export default nlopt;
}
