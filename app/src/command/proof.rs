//! `proof`: our values beside published ones.

use anyhow::Result;

use crate::told::{Told, say};

/// Prints every published value with ours; ends with problems when one does not agree.
///
/// # Errors
/// A table of published values cannot be read.
pub fn proof() -> Result<Told> {
    let proofs = engine::proof::proof().map_err(anyhow::Error::msg)?;
    for proof in &proofs {
        let row = &proof.row;
        let ours = match &proof.ours {
            Ok(found) => found.to_string(),
            Err(why) => why.clone(),
        };
        let word = if proof.agrees { "agrees" } else { "DIFFERS" };
        say(&format!(
            "{:<6} {word:<8} {:<28} published {:<22} ours {ours} {}",
            row.id, row.key, row.expected, row.unit
        ))?;
        say(&format!("       {}", row.citation))?;
    }
    let agree = proofs.iter().filter(|proof| proof.agrees).count();
    say(&format!("\n{agree} of {} published values agree", proofs.len()))?;
    Ok(if agree == proofs.len() { Told::Answered } else { Told::Problems })
}
