/** Parses a file with the YAML library and nothing else: `node tests/bench/yamlAlone.mjs FILE`. */
import { readFileSync } from 'node:fs';
import { parseDocument } from 'yaml';

const { errors } = parseDocument(readFileSync(process.argv[2], 'utf8'));
if (errors.length > 0) throw errors[0];
