//! Puts the built page where the program embeds it, or a notice where it was not built.

use std::path::Path;
use std::{env, fs, io};

const NOTICE: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Loamwright</title>\
    <p>The page is not built yet: run <code>cargo x open</code>, then start again.</p></html>\n";

fn main() -> io::Result<()> {
    println!("cargo::rerun-if-changed=../ui/dist");
    let Some(out) = env::var_os("OUT_DIR") else { return Err(io::Error::other("OUT_DIR is not set")) };
    let (from, to) = (Path::new("../ui/dist"), Path::new(&out).join("ui"));
    if to.exists() {
        fs::remove_dir_all(&to)?;
    }
    fs::create_dir_all(&to)?;
    if from.join("index.html").exists() { copy(from, &to) } else { fs::write(to.join("index.html"), NOTICE) }
}

fn copy(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.file_type()?.is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}
