//! Passwords as they are kept: argon2id hashes that are slow to guess at.

use argon2::password_hash::{PasswordHash, SaltString};
use argon2::{Algorithm, Argon2, Params, PasswordHasher, PasswordVerifier, Version};

use crate::failure::Failure;

/// The least number of characters. NIST SP 800-63B-4, of a password that is the only factor (from memory).
pub(super) const FEWEST: usize = 15;
/// The most bytes: more is no password, but work for the desk.
pub(super) const MOST: usize = 1024;

/// Memory in KiB, passes and lanes: OWASP, Password Storage Cheat Sheet, the smaller of its settings for argon2id (from
/// memory).
const COSTS: (u32, u32, u32) = (19 * 1024, 2, 1);

/// No password has this hash. It is checked where there is no account of a name, so that such a name costs the same.
pub(super) const NOBODYS: &str = "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$\
     AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// The hash of a new password.
///
/// # Errors
///
/// If it is too short or too long, or the system gives no random numbers.
pub(super) fn hashed(password: &str) -> Result<String, Failure> {
    if password.chars().count() < FEWEST || password.len() > MOST {
        return Err(Failure::new(
            format!("a password has at least {FEWEST} characters, and {MOST} bytes at most"),
            "take four or five words that nobody else would put together",
        ));
    }
    let mut salt = [0; 16];
    let no_hash = |why: String| Failure::new(format!("the password could not be hashed: {why}"), "try again");
    getrandom::fill(&mut salt).map_err(|it| no_hash(it.to_string()))?;
    let salt = SaltString::encode_b64(&salt).map_err(|it| no_hash(it.to_string()))?;
    let hash = hasher().hash_password(password.as_bytes(), &salt).map_err(|it| no_hash(it.to_string()))?;
    Ok(hash.to_string())
}

/// Whether that password has this hash. It takes the same time whether or not.
pub(super) fn is_right(password: &str, hash: &str) -> bool {
    PasswordHash::new(hash).is_ok_and(|it| hasher().verify_password(password.as_bytes(), &it).is_ok())
}

fn hasher() -> Argon2<'static> {
    let (memory, passes, lanes) = COSTS;
    // The costs are within what argon2 allows; were they not, its own default would do, and the test would fail.
    let params = Params::new(memory, passes, lanes, None).unwrap_or_default();
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
}

#[cfg(test)]
mod tests {
    use argon2::{AssociatedData, ParamsBuilder};

    use super::*;

    const PASSWORD: &str = "moss under a lantern";

    #[test]
    fn a_hash_knows_its_password_and_no_other() {
        let [a, b] = [hashed(PASSWORD).unwrap(), hashed(PASSWORD).unwrap()];
        assert_ne!(a, b, "each has a salt of its own");
        assert!(is_right(PASSWORD, &a) && is_right(PASSWORD, &b));
        for wrong in ["", "moss under a lanter", "Moss under a lantern", "moss under a lantern "] {
            assert!(!is_right(wrong, &a), "{wrong:?}");
        }
        assert!(!is_right(PASSWORD, "") && !is_right(PASSWORD, PASSWORD));
    }

    #[test]
    fn nobodys_hash_costs_what_any_other_does_and_has_no_password() {
        let [theirs, nobodys] = [&hashed(PASSWORD).unwrap()[..], NOBODYS].map(|it| {
            let hash = PasswordHash::new(it).unwrap();
            let params = Params::try_from(&hash).unwrap();
            (
                hash.algorithm.to_string(),
                hash.version,
                (params.m_cost(), params.t_cost(), params.p_cost()),
                hash.salt.unwrap().as_str().len(),
                hash.hash.unwrap().len(),
            )
        });
        assert_eq!(theirs, nobodys);
        assert_eq!(theirs.2, COSTS);
        assert!(!is_right("", NOBODYS) && !is_right(PASSWORD, NOBODYS));
    }

    #[test]
    fn short_and_endless_passwords_are_refused() {
        assert!(hashed(&"x".repeat(FEWEST - 1)).is_err());
        assert!(hashed(&"x".repeat(FEWEST)).is_ok());
        assert!(hashed(&"ä".repeat(FEWEST)).is_ok());
        assert!(hashed(&"x".repeat(MOST + 1)).is_err());
    }

    /// RFC 9106, section 5.3: the test vector of argon2id (from memory).
    #[test]
    fn the_vector_of_the_standard() {
        let params = ParamsBuilder::new()
            .m_cost(32)
            .t_cost(3)
            .p_cost(4)
            .data(AssociatedData::new(&[4; 12]).unwrap())
            .build()
            .unwrap();
        let hasher = Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).unwrap();
        let mut tag = [0; 32];
        hasher.hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
        let tag: String = tag.iter().map(|it| format!("{it:02x}")).collect();
        assert_eq!(tag, "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
    }
}
