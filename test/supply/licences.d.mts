export declare const TABLE: string;
export declare function table(): string;
export declare function installed(): readonly {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly own: string;
}[];
