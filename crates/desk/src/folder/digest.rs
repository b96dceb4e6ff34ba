//! What tells a file from what it was when an edit began.

use std::fmt;
use std::str::FromStr;

use sha2::{Digest as _, Sha256};

/// The SHA-256 of a file's bytes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(crate) struct Digest([u8; 32]);

impl Digest {
    pub(crate) fn of(bytes: &[u8]) -> Digest {
        Digest(Sha256::digest(bytes).into())
    }
}

/// In hexadecimal, as other programs print it.
impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|it| write!(f, "{it:02x}"))
    }
}

impl FromStr for Digest {
    type Err = ();

    fn from_str(text: &str) -> Result<Digest, ()> {
        let mut bytes = [0; 32];
        if text.len() != 64 || !text.is_ascii() {
            return Err(());
        }
        for (at, byte) in bytes.iter_mut().enumerate() {
            let pair = text.get(2 * at..2 * at + 2).ok_or(())?;
            *byte = u8::from_str_radix(pair, 16).map_err(|_| ())?;
        }
        Ok(Digest(bytes))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The value for "abc" is that of FIPS 180-4's published examples.
    #[test]
    fn digests_are_those_of_the_standard() {
        let text = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").to_string(), text);
        assert_eq!(text.parse(), Ok(Digest::of(b"abc")));
        for wrong in ["", "ba", &text[1..], &text.replace('b', "g"), &"é".repeat(32)] {
            assert_eq!(wrong.parse::<Digest>(), Err(()), "{wrong}");
        }
    }
}
