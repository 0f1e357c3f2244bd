/** One thing wrong with a type, where, and in words. */
export interface TypeFault {
  path: string;
  message: string;
}

export type Fault = (path: string, message: string) => void;
