export {
  type AnyDocument,
  checkDocument,
  convertDocument,
  countDocument,
  cutDocument,
  type ExplainedCode,
  explainDocument,
  type FileOut,
  failureDocument,
  isSchemaName,
  newDocument,
  printJson,
  type Runtime,
  schemaNames,
  versionDocument,
  versions,
} from './documents.ts';
export { jsonSchema, schemaFaults } from './jsonSchema.ts';
export { kitDocument } from './kit.ts';
export type { SchemaFault, SchemaName } from './schema.ts';
export { drawerDocument, jobDocument, stateDocument } from './stock.ts';
