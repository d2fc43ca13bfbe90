import type { SchemaName } from './schema.ts';

/** The JSON Schema of a document. The library behind it is loaded only here, when one is asked for. */
export async function jsonSchema(name: SchemaName): Promise<object> {
  const { toJsonSchema } = await import('./schema.ts');
  return toJsonSchema(name);
}
