//! What a cookie or an invitation holds: 256 random bits, of which the store keeps only the hash.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use crate::failure::Failure;

/// A secret and its hash.
pub(crate) struct Secret {
    /// What is given away, once.
    pub(crate) told: String,
    /// What is kept.
    pub(crate) hash: String,
}

impl Secret {
    /// A new one.
    ///
    /// # Errors
    ///
    /// If the system gives no random numbers.
    pub(crate) fn new() -> Result<Secret, Failure> {
        let mut bytes = [0; 32];
        getrandom::fill(&mut bytes)
            .map_err(|it| Failure::new(format!("the system gives no random numbers: {it}"), "try again"))?;
        let told = hex(&bytes);
        Ok(Secret { hash: hash_of(&told), told })
    }
}

/// The hash under which a secret that was told is looked for. A look-up by the hash says nothing of how much was right.
pub(crate) fn hash_of(told: &str) -> String {
    hex(&Sha256::digest(told.as_bytes()))
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, it| {
        // A text takes everything.
        _ = write!(text, "{it:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn secrets_differ_and_hash_as_the_standard_says() {
        let [a, b] = [Secret::new().unwrap(), Secret::new().unwrap()];
        assert_eq!((a.told.len(), a.hash.len()), (64, 64));
        assert!(a.told != b.told && a.hash != b.hash && a.told != a.hash);
        assert_eq!(hash_of(&a.told), a.hash);
        // FIPS 180-2, appendix B.1, of "abc" (from memory).
        assert_eq!(hash_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
