//! Mixtures: which mixes to try, what tried mixes say of others, what is wanted of them, and the best one in buckets.

mod choice;
mod design;
mod desirability;
mod fit;
mod plan;
mod terms;
mod tried;

pub use choice::{Choice, Ranked, ranked, steady};
pub use design::{Limits, Unmeasurable, centroid, lattice, lattice_count, measurable, shares, spread_out};
pub use desirability::{Goal, Want, desirability, overall};
pub use fit::{Fit, LackOfFit, Predicted, Unfitted, distinct, fitted, groups, highest_order};
pub use plan::{
    Planned, aside_mass, aside_volume, bricks_of_each, first_making_day, last_making_day, making_days, mixes_in_all,
    mixes_to_make, moulded, one_mix, pieces, pieces_by_habit, planned, scatter_share, set_aside, to_fill, trial_placed,
};
pub use terms::{Kind, Order, Terms};
pub use tried::{
    as_chosen, buckets_chosen, buckets_off, distinct_mixes, expected, explained_left_out, lack_of_fit, measured, meets,
    missed_left_out, narrowed, nearly_as_good, off_by, scatter, share, steps_of_batch, steps_of_mixes, terms_carried,
};
