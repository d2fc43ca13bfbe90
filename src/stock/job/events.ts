import type { Job, JobEvent } from '../../model/index.ts';
import { keyOf, sheetsOf } from './state.ts';

/**
 * What is wrong with the events of a job: they stand outside its seal, and can be edited. They have to speak of
 * sheets and parts that there are, and each sheet that is cut again holds a piece.
 */
export function strayEvent(job: Job): string | undefined {
  for (const event of job.events) {
    const stray = event.kind === 'recut' ? strayRecut(event, job) : undefined;
    if (stray !== undefined) return stray;
  }
  const all = new Set(sheetsOf(job).map(keyOf));
  const named = job.events.flatMap((it) => (it.kind === 'recut' ? [] : it.sheets));
  const stray = named.find((it) => !all.has(keyOf(it)));
  return stray === undefined ? outOfTurn(job) : `there is no sheet ${stray.number} of "${stray.material}"`;
}

/** A sheet is cut once, and put away once, after that. */
function outOfTurn({ events }: Job): string | undefined {
  const [cut, away] = [new Set<string>(), new Set<string>()];
  for (const event of events) {
    if (event.kind === 'recut') continue;
    for (const sheet of event.sheets) {
      const [key, name] = [keyOf(sheet), `sheet ${sheet.number} of "${sheet.material}"`];
      if (event.kind === 'put away' && !cut.has(key)) return `${name} is put away, but is not cut`;
      const done = event.kind === 'cut' ? cut : away;
      if (done.has(key)) return `${name} is ${event.kind} twice`;
      done.add(key);
    }
  }
  return undefined;
}

/** What can be asked for at once. */
const mostAgain = 9999;

function strayRecut(event: Extract<JobEvent, { kind: 'recut' }>, { plan }: Job): string | undefined {
  const { material, label, count, pictures } = event;
  const own = plan.materials.filter(({ demand }) => demand.material.name === material);
  const labels = own.flatMap(({ demand }) =>
    demand.parts.flatMap((kind) => kind.members.map((it) => it.label)),
  );
  if (!labels.includes(label)) return `there is no "${label}" of "${material}" to cut again`;
  if (count > mostAgain) return `${count} x "${label}" are cut again, more than ${mostAgain} at once`;
  const sheets = pictures.reduce((sum, { times }) => sum + times, 0);
  return sheets > count ? `${count} x "${label}" are cut again from ${sheets} sheets` : undefined;
}
