/* tslint:disable */
/* eslint-disable */

/**
 * See [`crate::Player`].
 */
export class Player {
    free(): void;
    [Symbol.dispose](): void;
    /**
     * See [`crate::Player::check`].
     */
    check(sheet: string): string;
    /**
     * See [`crate::Player::follows`].
     */
    follows(sheet: string, cell: number, digit: number, within: number): string;
    /**
     * See [`crate::Player::hint`].
     *
     * # Errors
     *
     * If the sheet cannot be read; so for all of them.
     */
    hint(sheet: string): string;
    /**
     * The player of the puzzle that a page embeds.
     *
     * # Errors
     *
     * If it is no puzzle with exactly one solution.
     */
    constructor(page: string);
    /**
     * See [`crate::Player::pencil`].
     */
    pencil(sheet: string): string;
    /**
     * See [`crate::Player::why`].
     */
    why(sheet: string, cell: number): string;
}

export type InitInput = RequestInfo | URL | Response | BufferSource | WebAssembly.Module;

export interface InitOutput {
    readonly memory: WebAssembly.Memory;
    readonly __wbg_player_free: (a: number, b: number) => void;
    readonly player_check: (a: number, b: number, c: number) => [number, number, number, number];
    readonly player_follows: (a: number, b: number, c: number, d: number, e: number, f: number) => [number, number, number, number];
    readonly player_hint: (a: number, b: number, c: number) => [number, number, number, number];
    readonly player_new: (a: number, b: number) => [number, number, number];
    readonly player_pencil: (a: number, b: number, c: number) => [number, number, number, number];
    readonly player_why: (a: number, b: number, c: number, d: number) => [number, number, number, number];
    readonly __wbindgen_externrefs: WebAssembly.Table;
    readonly __wbindgen_malloc: (a: number, b: number) => number;
    readonly __wbindgen_realloc: (a: number, b: number, c: number, d: number) => number;
    readonly __wbindgen_free: (a: number, b: number, c: number) => void;
    readonly __externref_table_dealloc: (a: number) => void;
    readonly __wbindgen_start: () => void;
}

export type SyncInitInput = BufferSource | WebAssembly.Module;

/**
 * Instantiates the given `module`, which can either be bytes or
 * a precompiled `WebAssembly.Module`.
 *
 * @param {{ module: SyncInitInput }} module - Passing `SyncInitInput` directly is deprecated.
 *
 * @returns {InitOutput}
 */
export function initSync(module: { module: SyncInitInput } | SyncInitInput): InitOutput;

/**
 * If `module_or_path` is {RequestInfo} or {URL}, makes a request and
 * for everything else, calls `WebAssembly.instantiate` directly.
 *
 * @param {{ module_or_path: InitInput | Promise<InitInput> }} module_or_path - Passing `InitInput` directly is deprecated.
 *
 * @returns {Promise<InitOutput>}
 */
export default function __wbg_init (module_or_path?: { module_or_path: InitInput | Promise<InitInput> } | InitInput | Promise<InitInput>): Promise<InitOutput>;
