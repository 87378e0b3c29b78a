/** What is used of the package: its own types describe it as CommonJS, and Node gives its ES module. */
declare module 'highs' {
  interface Solved {
    readonly Status: string;
    readonly Columns: Readonly<Record<string, { readonly Primal?: number }>>;
    readonly Rows: readonly { readonly Name: string; readonly Dual?: number }[];
  }
  interface Highs {
    solve(programme: string, options: Readonly<Record<string, string | number | boolean>>): Solved;
  }
  export default function load(): Promise<Highs>;
}
