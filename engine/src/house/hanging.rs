//! How doors and windows hang: which way they open, what drips off a threshold, what a sash leaves for glass.

use super::opening::{Hanging, Opening};
use super::place::{shown, within};
use crate::build::{self, OpeningKind, Source, Swing};
use crate::known::{Known, Origin};
use crate::units::{Length, System};

pub(super) fn place(
    source: &Source<'_>,
    written: &build::Hanging,
    opening: &Opening,
    system: System,
) -> Option<Hanging> {
    let swing = written.swing.as_ref().map(|swing| swing.value);
    let hand = written.hand.as_ref().map(|hand| hand.value);
    if let (Some(Swing::Fixed), Some(at)) = (swing, &written.hand) {
        let hint = "leave `hand` out, or write swing = \"in\" or \"out\"";
        source.fault(at.span.clone(), &at.path, "a fixed window has no hinges", hint);
        return None;
    }
    let (mut drip, mut sash, mut glass) = (None, None, None);
    match opening.kind {
        OpeningKind::Door => {
            drip = Some(match &written.drip {
                Some(_) => {
                    let what = "how far a threshold stands out";
                    within(source, written.drip.as_ref(), Length::ZERO..Length::mm(400.0), what, system)?
                }
                None => {
                    let why = "water drips off clear of the stem wall";
                    Known::assumed(Length::mm(40.0), opening.path("drip"), Origin::CommonPractice, why)
                }
            });
        }
        OpeningKind::Window => {
            if let Some(frame) = &opening.frame {
                let member = match &written.sash {
                    Some(_) => {
                        let what = "the width of a sash";
                        within(source, written.sash.as_ref(), Length::ZERO..Length::mm(300.0), what, system)?
                    }
                    None => {
                        let why = "a casement's members beside the glass; of glass set in the frame, write 0";
                        Known::assumed(Length::mm(45.0), opening.path("sash"), Origin::Judgement, why)
                    }
                };
                let width = member.value.in_m();
                glass = if width == 0.0 { Some(frame.inside) } else { frame.inside.inset(width, width) };
                if glass.is_none() {
                    let message = format!("a sash of {} leaves no glass in the frame", shown(member.value, system));
                    let hint = "make the sash narrower, or write sash = \"0 mm\" for glass set in the frame";
                    let at = written
                        .sash
                        .as_ref()
                        .map_or((0..0, frame.width.path.as_str()), |at| (at.span.clone(), at.path.as_str()));
                    source.fault(at.0, at.1, message, hint);
                    return None;
                }
                sash = Some(member);
            } else if let Some(at) = &written.sash {
                let message = "a sash hangs in a frame, and this window has none";
                source.fault(at.span.clone(), &at.path, message, "write frame = { width = .., depth = .. }");
                return None;
            }
        }
    }
    Some(Hanging { swing, hand, drip, sash, glass })
}
