/** One fault of a type: its place and its words. */
export interface TypeFault {
  path: string;
  message: string;
}

export type Fault = (path: string, message: string) => void;
