//! What was typed for the desk.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::Args;

#[derive(Debug, Args)]
pub(crate) struct RawDesk {
    /// The pack's folder
    pub(crate) pack: PathBuf,

    /// The port to answer at [default: any that is free]
    #[arg(long, value_name = "N", default_value = "0", hide_default_value = true)]
    pub(crate) port: u16,

    /// The address to answer at; others than this machine's own take accounts and --public-url
    #[arg(long, value_name = "IP", default_value = "127.0.0.1")]
    pub(crate) address: IpAddr,

    /// Where browsers reach the desk, through a proxy that speaks TLS and passes on the name of the host; takes accounts
    #[arg(long, value_name = "URL")]
    pub(crate) public_url: Option<String>,

    /// Print the address and open no browser
    #[arg(long)]
    pub(crate) no_browser: bool,

    /// Add an editor's account, and open no desk
    #[arg(long, value_name = "NAME", group = "account", help_heading = "Accounts")]
    pub(crate) add_account: Option<String>,

    /// Give an account another password, which signs it out everywhere
    #[arg(long, value_name = "NAME", group = "account", help_heading = "Accounts")]
    pub(crate) change_password: Option<String>,

    /// Take an account away
    #[arg(long, value_name = "NAME", group = "account", help_heading = "Accounts")]
    pub(crate) remove_account: Option<String>,

    /// Print the names of the accounts
    #[arg(long, group = "account", help_heading = "Accounts")]
    pub(crate) accounts: bool,
}
