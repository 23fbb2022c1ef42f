"""What paper has had from a lamp, integrated independently of the firmware and of the bench's own lamp."""
