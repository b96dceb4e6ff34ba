//! Bytes to text: UTF-8, UTF-16 that says so, and Windows-1252 for everything else.

use encoding_rs::{Encoding, UTF_8, WINDOWS_1252};

use super::{Fault, ReadFault};

/// The text, and what had to be done to have it.
pub(super) fn decoded(bytes: &[u8]) -> (String, Vec<ReadFault>) {
    if let Some((encoding, _)) = Encoding::for_bom(bytes).filter(|it| it.0 != UTF_8) {
        let text = encoding.decode(bytes).0.into_owned();
        return (text, vec![ReadFault { line: 1, fault: Fault::Utf16 }]);
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => (text.strip_prefix('\u{feff}').unwrap_or(text).to_owned(), Vec::new()),
        Err(it) => {
            let line = super::lines(&String::from_utf8_lossy(&bytes[..it.valid_up_to()])).len();
            let text = WINDOWS_1252.decode_without_bom_handling(bytes).0.into_owned();
            (text, vec![ReadFault { line, fault: Fault::Windows1252 }])
        }
    }
}
