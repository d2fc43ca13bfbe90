/** What is to be known of a part's drawing, to tell whether it has two hands. */
export interface Drawing {
  /** True where the drawing differs from its mirror image, however that is turned. */
  readonly tellsHandsApart: boolean;
}

/** A rectangle without cuts is its own mirror image. */
export const plainRectangle: Drawing = { tellsHandsApart: false };

/**
 * True where a piece that faces the other way has to be cut from the other side: its drawing has two hands, and
 * a good side forbids turning it over.
 */
export function isHanded(drawing: Drawing, goodSide: boolean): boolean {
  return goodSide && drawing.tellsHandsApart;
}

/** The name of the other hand, which no maker can give to a part: names have no commas. */
export function otherHand(part: string): string {
  return `${part}, other hand`;
}
