//! What a page of this desk has and no other site can read.

use std::fmt;

use subtle::ConstantTimeEq;

use crate::failure::Failure;

/// 128 random bits, in hexadecimal.
pub(crate) struct Token(String);

impl Token {
    pub(crate) fn new() -> Result<Token, Failure> {
        let mut bytes = [0; 16];
        getrandom::fill(&mut bytes).map_err(|it| {
            Failure::new(format!("the system gives no random numbers: {it}"), "start the desk again")
        })?;
        Ok(Token(bytes.iter().map(|it| format!("{it:02x}")).collect()))
    }

    /// The same once more, for whoever checks it.
    pub(crate) fn copied(&self) -> Token {
        Token(self.0.clone())
    }

    /// Whether this is it, in a time that does not tell how much of it is right.
    pub(crate) fn is(&self, told: &[u8]) -> bool {
        self.0.as_bytes().ct_eq(told).into()
    }
}

impl fmt::Display for Token {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// It is not for a log.
impl fmt::Debug for Token {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Token(..)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tokens_differ_and_know_themselves() {
        let (a, b) = (Token::new().unwrap(), Token::new().unwrap());
        assert_eq!(a.to_string().len(), 32);
        assert!(a.is(a.to_string().as_bytes()));
        assert!(!a.is(b.to_string().as_bytes()) && !a.is(b"") && !a.is(&a.to_string().as_bytes()[1..]));
        assert_eq!(format!("{a:?}"), "Token(..)");
    }
}
