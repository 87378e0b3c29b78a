/** The fields of a class without the class: what a literal is before it goes out as one, and may be spread into another. */
export type Plain<Dto> = { [Field in keyof Dto]: Dto[Field] };
