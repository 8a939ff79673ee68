//! Installs the few programs that the tests call, where that is allowed.

use std::process::Command;

use crate::step::is_installed;

/// Program the tests call, and the Debian package that brings it.
const NEEDED: [(&str, &str); 2] = [("pdftotext", "poppler-utils"), ("chromium", "chromium")];

/// Makes sure that every needed program is there.
///
/// # Errors
/// The exact line to type, when something is missing and may not or cannot be installed from here.
pub(crate) fn install_what_is_missing() -> Result<(), String> {
    let packages = missing();
    if packages.is_empty() {
        return Ok(());
    }
    let update = "apt-get update";
    let install = format!("apt-get install --yes --no-install-recommends {}", packages.join(" "));
    let by_hand = format!("Missing for the tests; install it with:\n  sudo {update} && sudo {install}");
    if !is_installed("apt-get") || !is_root() {
        return Err(by_hand);
    }
    for line in [update, &install] {
        println!("{line}");
        let mut words = line.split_whitespace();
        let status = Command::new(words.next().unwrap_or_default())
            .args(words)
            .env("DEBIAN_FRONTEND", "noninteractive")
            .status();
        if !status.is_ok_and(|status| status.success()) {
            return Err(format!("`{line}` failed. {by_hand}"));
        }
    }
    match missing().is_empty() {
        true => Ok(()),
        false => Err(by_hand),
    }
}

fn missing() -> Vec<&'static str> {
    let absent = NEEDED.iter().filter(|(program, _)| !is_installed(program));
    let mut packages: Vec<&str> = absent.map(|(_, package)| *package).collect();
    packages.dedup();
    packages
}

fn is_root() -> bool {
    let told = Command::new("id").arg("-u").output();
    told.is_ok_and(|told| told.stdout.trim_ascii() == b"0")
}
