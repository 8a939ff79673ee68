//! A ring of real poles: unequal, tapered, bowed, each resting on its neighbour, on any plate round any eye.

mod band;
mod choice;
#[cfg(test)]
mod choice_laws;
mod close;
mod contact;
mod fault;
mod forces;
#[cfg(test)]
pub(in crate::roof) mod laws;
mod lie;
mod lift;
mod marks;
mod plan;
mod pole;
mod raising;
#[cfg(test)]
mod raising_laws;
mod ring;
mod search;
mod second;
#[cfg(test)]
mod second_laws;
mod teams;
mod thorough;

pub use band::{Band, Effect, Errors, Figures, Measure, bands, effects, figures, rounded};
pub use choice::{Candidate, Choice, Laid, Placed, Position, Unfit, Wish, choose_at_once, positions, unfit};
pub use fault::Fault;
pub use forces::{Load, Passed, lost, passed};
pub(in crate::roof) use lie::Lie;
pub use lift::{
    Team, balance_point, drying_shrinkage, lifted_by, longest_cut, mass_at_end, mass_of_all, sinking, tapered_volume,
    wood_of_all,
};
pub use marks::{
    above, carry_mark, choice_bound, choice_cost, cut_length, eye_level, eye_size, half_notch, likely_error,
    mean_pitch, middle, notch, off_plan, planned_level, pole_of_the_pile, pole_pitch, prop_top, rest_height, rest_mark,
    seat_in_plan, seat_level, set_upright, slack, sunk, tail, tail_in_plan, tip_height, underside_height, worst_error,
};
pub use plan::{Start, supports};
pub use pole::{Layout, Pole, Rafter, Rests, RestsOn, mean_diameter};
pub use raising::{
    Measured, Propped, as_raised, bedded, dried, marked_levels, order, propped, propped_as_raised, raised,
};
pub(in crate::roof) use ring::laid;
pub use ring::{Ring, Set, notches_for_pitch, pitches, ring};
pub use search::Best;
pub use second::{Head, Leaning, Misfit, Second};
pub use teams::{each_alone, team_lift, teams};
pub use thorough::{WhichPole, choose};
