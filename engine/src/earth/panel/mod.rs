//! Test panels of plaster: the scale on which they are scored, what scores of several judges say of a mix, and the mix that they choose.

mod choice;
mod judged;
mod scale;
mod told;

pub use choice::{Chosen, Unscored, chosen, is_rejected};
pub use judged::{Judged, Score, judged};
pub use scale::{ASPECTS, Step, good, scale, worst};
pub use told::{
    by_what_scored, coat_over_panel, common_chance, judges_apart, mix_nearly_as_good, odds_of_judge, panels_rejected,
    panels_scored, steps_between, sure_after, surely,
};
