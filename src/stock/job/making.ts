import type {
  Job,
  JobMaterial,
  JobPicture,
  JobPlan,
  Made,
  MaterialPlan,
  SheetPlan,
} from '../../model/index.ts';

/** What a job is told beside the plan itself. */
export type JobAbout = Pick<JobPlan, 'madeBy' | 'inputs' | 'asked' | 'drawer' | 'mark'>;

/** The plan of a run, kept as it is printed. */
export function jobPlanOf({ batch, plans }: Made, about: JobAbout): JobPlan {
  return {
    title: batch.title,
    ...about,
    settings: batch.settings,
    tiles: batch.tiles,
    materials: plans.map((plan) => jobMaterial(plan, batch.materials)),
    ...(batch.fittings === undefined
      ? {}
      : { fittings: batch.fittings.map(({ name, count, pack }) => ({ name, count, pack })) }),
  };
}

/** The parts are kept as they are asked for, not as the blanks they come from: each can be cut again by itself. */
function jobMaterial(
  { demand, sheets, unplaced }: MaterialPlan,
  asked: Made['batch']['materials'],
): JobMaterial {
  const own = asked.find(({ material }) => material.name === demand.material.name);
  return {
    demand: { ...(own ?? demand), sheets: demand.sheets },
    pictures: sheets.map((it) => jobPicture(it, false)),
    unplaced: unplaced.map(({ member, count }) => ({ label: member.label, count })),
  };
}

/** @param isOwn  the sheet is a leftover of the job that the picture is for */
export function jobPicture(
  { first, times, sheet, inside, pieces, leftovers }: SheetPlan,
  isOwn: boolean,
): JobPicture {
  return {
    first,
    times,
    sheet,
    isOwn,
    inside,
    pieces: pieces.map(({ member, box, turned }) => ({
      label: member.label,
      ...(member.shared === undefined ? {} : { parts: member.shared.labels }),
      box,
      turned,
    })),
    leftovers,
  };
}

/** All pictures of a material: as planned, then of what was cut again. */
export function picturesOf({ plan, events }: Job, material: string): readonly JobPicture[] {
  const planned = plan.materials.filter(({ demand }) => demand.material.name === material);
  const again = events.flatMap((it) => (it.kind === 'recut' && it.material === material ? it.pictures : []));
  return [...planned.flatMap(({ pictures }) => pictures), ...again];
}
