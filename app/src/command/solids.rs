//! `solids`: the bodies of every part as one binary glTF file.

use std::path::{Path, PathBuf};

use anyhow::{Result, bail};
use engine::units::Length;

use crate::folder;
use crate::told::{Told, say};

/// How far a chord may keep from its curve.
const CHORD: Length = Length::mm(1.0);

/// Writes the bodies of a build file's parts beside it, or where told.
///
/// # Errors
/// A file cannot be read or written, or a part could not be made into a body.
pub fn solids(file: &Path, out: Option<PathBuf>) -> Result<Told> {
    let Some(house) = folder::computed(file, None)? else { return Ok(Told::Problems) };
    let solids = house.bodies(CHORD);
    let out = out.unwrap_or_else(|| folder::beside(file, "glb"));
    let name = house.name();
    folder::write(&out, &press::gltf::glb(name, &solids.bodies))?;
    say(&format!("{name}: {} bodies, {}", solids.bodies.len(), out.display()))?;
    if let Some((path, why)) = solids.left_out.first() {
        bail!("{} of its parts have no body, first {path}: {why}", solids.left_out.len());
    }
    Ok(Told::Answered)
}
