//! The same as a page's script calls it.

use wasm_bindgen::prelude::wasm_bindgen;

/// See [`crate::Player`].
#[wasm_bindgen]
#[derive(Debug)]
pub struct Player(crate::Player);

#[wasm_bindgen]
impl Player {
    /// The player of the puzzle that a page embeds.
    ///
    /// # Errors
    ///
    /// If it is no puzzle with exactly one solution.
    #[wasm_bindgen(constructor)]
    pub fn new(page: &str) -> Result<Player, String> {
        crate::Player::new(page).map(Player).map_err(|it| it.to_string())
    }

    /// See [`crate::Player::hint`].
    ///
    /// # Errors
    ///
    /// If the sheet cannot be read; so for all of them.
    pub fn hint(&mut self, sheet: &str) -> Result<String, String> {
        self.0.hint(sheet).map_err(|it| it.to_string())
    }

    /// See [`crate::Player::check`].
    pub fn check(&self, sheet: &str) -> Result<String, String> {
        self.0.check(sheet).map_err(|it| it.to_string())
    }

    /// See [`crate::Player::why`].
    pub fn why(&mut self, sheet: &str, cell: usize) -> Result<String, String> {
        self.0.why(sheet, cell).map_err(|it| it.to_string())
    }

    /// See [`crate::Player::follows`].
    pub fn follows(&self, sheet: &str, cell: usize, digit: u8, within: usize) -> Result<String, String> {
        self.0.follows(sheet, cell, digit, within).map_err(|it| it.to_string())
    }

    /// See [`crate::Player::pencil`].
    pub fn pencil(&self, sheet: &str) -> Result<String, String> {
        self.0.pencil(sheet).map_err(|it| it.to_string())
    }
}
