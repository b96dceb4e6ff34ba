//! The address at which a desk is reached from other machines: a proxy that speaks TLS.

use std::fmt;

use crate::failure::Failure;

/// An address that begins with `https://` and names a host, perhaps with a port, and nothing more.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Public {
    host: String,
}

impl Public {
    /// Reads an address.
    ///
    /// # Errors
    ///
    /// If it is none of that form.
    pub(crate) fn read(text: &str) -> Result<Public, Failure> {
        let host = text.strip_prefix("https://").map(|it| it.strip_suffix('/').unwrap_or(it));
        let is_host = |it: &str| {
            let (name, port) = it.rsplit_once(':').map_or((it, None), |it| (it.0, Some(it.1)));
            !name.is_empty()
                && name.bytes().all(|it| it.is_ascii_alphanumeric() || b".-".contains(&it))
                && port.is_none_or(|it| it.parse::<u16>().is_ok_and(|it| it > 0) && !it.starts_with('+'))
        };
        match host.filter(|it| is_host(it)) {
            Some(host) => {
                // A browser leaves out the port that https has anyway.
                let host = host.strip_suffix(":443").unwrap_or(host);
                Ok(Public { host: host.to_ascii_lowercase() })
            }
            None => Err(Failure::new(
                format!("{text:?} is no address that browsers could reach the desk at"),
                "write it as https:// with the name of a host and perhaps a port: the proxy there speaks TLS, without \
                 which sessions could be read on the way; the desk takes a whole host, so no path",
            )),
        }
    }

    /// The host as requests name it.
    pub(crate) fn host(&self) -> &str {
        &self.host
    }
}

impl fmt::Display for Public {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "https://{}", self.host)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_host_under_https_is_one() {
        for (text, host) in [
            ("https://desk.example", "desk.example"),
            ("https://Desk.Example:443/", "desk.example"),
            ("https://desk.example:8443", "desk.example:8443"),
            ("https://192.0.2.7", "192.0.2.7"),
        ] {
            assert_eq!(Public::read(text).unwrap().host(), host, "{text}");
        }
        for text in [
            "",
            "https://",
            "http://desk.example",
            "desk.example",
            "https://desk.example/galley",
            "https://a@desk.example",
            "https://desk.example:",
            "https://desk.example:0",
            "https://desk.example:+80",
            "https://desk.example?x",
            "https://de sk.example",
            "https://desk.example\r\nx: y",
        ] {
            assert!(Public::read(text).is_err(), "{text:?}");
        }
    }
}
