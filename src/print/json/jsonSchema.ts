import type { SchemaFault, SchemaName } from './schema.ts';

/** The JSON Schema of a document. The library behind it is loaded only here, when one is asked for. */
export async function jsonSchema(name: SchemaName): Promise<object> {
  const { toJsonSchema } = await import('./schema.ts');
  return toJsonSchema(name);
}

/** What of a document does not obey its schema, each with the way to it. */
export async function schemaFaults(name: SchemaName, document: unknown): Promise<readonly SchemaFault[]> {
  const { faultsOf } = await import('./schema.ts');
  return faultsOf(name, document);
}
