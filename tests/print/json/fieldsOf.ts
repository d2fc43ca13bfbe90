/** What this test needs to know of a JSON Schema. */
export interface SchemaNode {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, SchemaNode>>;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly anyOf?: readonly SchemaNode[];
  readonly oneOf?: readonly SchemaNode[];
}

/** Every field a document may have, as a path: `layouts[].pieces[].label`. */
export function fieldsOf(root: SchemaNode): readonly string[] {
  const fields = new Set<string>();
  const walk = (node: SchemaNode, path: string): void => {
    if (node.$ref !== undefined) {
      const name = node.$ref.replace('#/$defs/', '');
      walk(root.$defs?.[name] ?? {}, path);
    }
    for (const [name, child] of Object.entries(node.properties ?? {})) {
      const field = path === '' ? name : `${path}.${name}`;
      fields.add(field);
      walk(child, field);
    }
    if (node.items !== undefined) walk(node.items, `${path}[]`);
    for (const choice of [...(node.anyOf ?? []), ...(node.oneOf ?? [])]) walk(choice, path);
  };
  walk(root, '');
  return [...fields].sort();
}

/** Every field that a document really has, in the same spelling. */
export function fieldsIn(document: unknown): readonly string[] {
  const fields = new Set<string>();
  const walk = (value: unknown, path: string): void => {
    if (Array.isArray(value)) for (const item of value) walk(item, `${path}[]`);
    else if (typeof value === 'object' && value !== null) {
      for (const [name, child] of Object.entries(value)) {
        const field = path === '' ? name : `${path}.${name}`;
        fields.add(field);
        walk(child, field);
      }
    }
  };
  walk(document, '');
  return [...fields].sort();
}
