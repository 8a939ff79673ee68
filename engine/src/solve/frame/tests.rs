//! Frames against closed forms.
