import { type Diagnostic, type Place, positionOf, type Span } from '../../model/index.ts';
import type { Document } from './schema.ts';

type Described = Document<'failure'>['diagnostics'][number];

export function describeDiagnostic(diagnostic: Diagnostic): Described {
  const { code, severity, place, message, hints, related, fix } = diagnostic;
  return {
    code,
    severity,
    place: describePlace(place),
    message,
    hints: [...hints],
    related: related.map((it) => ({ place: describePlace(it.place), message: it.message })),
    fix: fix === undefined ? null : { ...describeSpan(fix.span), text: fix.text },
  };
}

export function describeSpan(span: Span) {
  return { file: span.source.path, ...positionOf(span) };
}

function describePlace(place: Place): Described['place'] {
  switch (place.kind) {
    case 'span':
      return { kind: 'span', ...describeSpan(place.span) };
    case 'file':
      return { kind: 'file', file: place.path };
    case 'argument':
      return { kind: 'argument', argument: place.argument };
    case 'facet':
      return { kind: 'facet', file: place.path, facet: place.facet };
    case 'none':
      return { kind: 'none' };
  }
}
