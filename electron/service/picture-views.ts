/** What the service says of a picture: marks with the plays behind each; the window only draws them. */

export interface PictureMark {
  /** where it stands: the band, and the panel that the band is in */
  readonly band: string;
  readonly panel: string;
  readonly value: number;
  /** 95 % interval in the unit of the value; null where the value is no rate */
  readonly interval: readonly [number, number] | null;
  /** what the value is out of; for a count the count itself */
  readonly base: number;
  /** too few to lean on */
  readonly small: boolean;
  /** in order */
  readonly playIds: readonly string[];
}

export interface PictureView {
  readonly name: string;
  readonly title: string;
  /** formula and denominator, in words */
  readonly note: string;
  readonly unit: '%' | 'plays' | 'yd';
  readonly bandLabel: string;
  readonly panelLabel: string;
  readonly marks: readonly PictureMark[];
  /** labels of fields that must be tagged before there is anything to draw */
  readonly needs: readonly string[];
}
