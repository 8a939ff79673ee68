//! A ring of poles as it stands: a frame in space under its loads, its forces, sags and thrusts, what it loses with one of its
//! poles, and how it stands while it is raised.

mod answers;
mod bays;
mod between;
#[cfg(test)]
mod between_laws;
mod build;
mod cases;
mod envelope;
mod fault;
mod given;
mod joint;
mod kept;
#[cfg(test)]
mod laws;
mod model;
mod notch;
mod pond;
mod second;
mod straight;
mod studies;
mod trial;
#[cfg(test)]
mod trial_laws;
mod wall;
mod worst;

pub use answers::{Answers, Section};
pub use between::{Between, Secondaries, Trimmed};
pub use envelope::{Crossing, Envelope, Foot, Here, Most, Stands};
pub use fault::Fault;
pub use given::{Combination, Extra, Feet, Joints, Loading, OnPole, Passing, Wood};
pub use joint::{At, FootForces, JointForces, Sags, crossing_angles};
pub use model::{Model, model};
pub use pond::ponded;
pub use second::{Lost as LostAtSeat, Resting, SecondRing};
pub use straight::{Beam, Bearing, Straight, StraightAnswers};
pub use studies::{Lost, Lowered, Raised, SecondOrder, Without, raising};
pub use trial::{Answered, Trial, TrialFound, Tried};
pub use wall::OnWall;
pub use worst::{Bears, Lasting, Left, Used, Worst};
