//! Opens the desk alone, without the command line around it: `cargo run -p desk --example open`.

fn main() -> Result<(), desk::DeskError> {
    desk::run(desk::Options::default())
}
