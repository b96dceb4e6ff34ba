//! Where the pages will be on the web.

use pack::PackInfo;

/// The whole address of that path within the site, if the pack names a folder on the web.
pub(crate) fn address(info: &PackInfo, path: &str) -> Option<String> {
    let base = info.base_url.as_deref()?;
    let is_web = base.starts_with("https://") || base.starts_with("http://");
    let is_folder = base.chars().all(|it| it.is_ascii_graphic() && !"\"'<>\\^`{|}?#".contains(it));
    let between = if base.ends_with('/') { "" } else { "/" };
    (is_web && is_folder).then(|| format!("{base}{between}{path}"))
}

/// The part of the address after the host: the folder that links from anywhere on the host begin with.
pub(crate) fn folder(info: &PackInfo) -> Option<String> {
    let address = address(info, "")?;
    let after_host = address.split_once("://")?.1.split_once('/')?.1;
    Some(format!("/{after_host}"))
}
