//! Why a body cannot be meshed.

/// Why a body cannot be meshed. Numbers are places in the lists given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Its top is nowhere above its foot.
    Nowhere,
    /// A face folds back on itself on this piece of the line.
    Folds(usize),
    /// The faces meet on this piece of the line.
    NoThickness(usize),
    /// A side of the cut never meets a face.
    NoMeeting(usize),
    /// The cut reaches past an end of the body.
    PastEnd(usize),
    /// The cut meets a foot or a top that is not level.
    MeetsSlope(usize),
    /// The niche does not stay between its face and the opposite one.
    NicheDepth(usize),
    /// Two cuts overlap or touch.
    CutsMeet(usize, usize),
    /// Cuts stand all round, so that no upright line of the faces is free.
    AllRound,
    /// The box is not wholly inside the body.
    BoxLeaves(usize),
    /// The box meets the cut.
    BoxMeetsCut(usize, usize),
    /// Two boxes overlap or touch.
    BoxesMeet(usize, usize),
    /// The outline crosses or touches itself.
    Tangled,
    /// The profile has not the same number of points everywhere, or fewer than three.
    ProfilePoints,
}

impl Fault {
    /// The fault in words; places in lists and pieces of the line are counted from 1.
    #[must_use]
    pub fn in_words(self) -> String {
        match self {
            Fault::Nowhere => "its top is nowhere above its foot".into(),
            Fault::Folds(piece) => format!("a face folds back on itself on piece {} of the line", piece + 1),
            Fault::NoThickness(piece) => format!("its two faces meet on piece {} of the line", piece + 1),
            Fault::NoMeeting(cut) => format!("a side of cut {} never meets a face", cut + 1),
            Fault::PastEnd(cut) => format!("cut {} reaches past an end", cut + 1),
            Fault::MeetsSlope(cut) => format!("cut {} meets a foot or a top that is not level", cut + 1),
            Fault::NicheDepth(cut) => format!("niche {} does not stay between the two faces", cut + 1),
            Fault::CutsMeet(a, b) => format!("cuts {} and {} overlap or touch", a + 1, b + 1),
            Fault::AllRound => "cuts stand all round, so that no upright line of the faces is free".into(),
            Fault::BoxLeaves(held) => format!("box {} is not wholly inside", held + 1),
            Fault::BoxMeetsCut(held, cut) => format!("box {} meets cut {}", held + 1, cut + 1),
            Fault::BoxesMeet(a, b) => format!("boxes {} and {} overlap or touch", a + 1, b + 1),
            Fault::Tangled => "its outline crosses or touches itself".into(),
            Fault::ProfilePoints => "its profile has not the same number of points, three or more, everywhere".into(),
        }
    }
}
