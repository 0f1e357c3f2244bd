import type { PictureMedia } from "../../shared/protocol/pictures.ts";

/** Identifies a picture: the same bytes at two defects are two pictures. */
export interface PictureKey {
  /** Id of the aircraft's record. */
  record: string;
  /** The defect's number in it. */
  no: number;
  sha256: string;
}

/** A stored picture without its bytes. */
export interface PictureRow extends PictureKey {
  /** Server milliseconds. */
  at: number;
  personId: string;
  media: PictureMedia;
  length: number;
}

export interface StoredPicture extends PictureRow {
  bytes: Uint8Array;
}

/**
 * The bytes of the defects' pictures. The evidence has their digests; the bytes lie beside it, so that they can be
 * removed without changing a byte of it.
 */
export interface PictureStore {
  /** Stores a picture, unless it is there already. */
  keep(picture: StoredPicture): Promise<void>;
  picture(key: PictureKey): Promise<StoredPicture | null>;
  /** Returns every picture, of one record or of all, by time. */
  rows(record?: string): Promise<PictureRow[]>;
  /** Returns the bytes of all pictures, and how many a person has added since a moment. */
  use(personId: string, since: number): Promise<{ bytes: number; ofPerson: number }>;
  forget(key: PictureKey): Promise<void>;
}
