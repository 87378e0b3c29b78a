import { openApiDocument } from '#api/documents.js';
import type { TestApi } from './test-api.js';

/** What the API's description says that can be asked. */
export interface Operation {
  readonly method: string;
  /** With its parameters in braces. */
  readonly path: string;
  /** Names of the parameters of the path, in order. */
  readonly parameters: readonly string[];
  /** Null where nobody needs one. */
  readonly right: string | null;
}

export function operationsOf({ app }: TestApi): Operation[] {
  const { paths } = JSON.parse(JSON.stringify(openApiDocument(app))) as {
    paths: Record<string, Record<string, { readonly 'x-right'?: string }>>;
  };
  return Object.entries(paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]) => ({
      ...{ method, path, right: operation['x-right'] ?? null },
      parameters: [...path.matchAll(/\{(\w+)\}/g)].map(([, name = '']) => name),
    })),
  );
}
